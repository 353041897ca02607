package org.gerdy.engine.casefile;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.logic.Truth;

/** Reads the runs and the plan of a visit whose shape the schema has passed. */
final class PlanReader {
    private static final int METRES_A_KILOMETRE = 1000;

    private final String file;
    private final List<Problem> problems;

    PlanReader(String file, List<Problem> problems) {
        this.file = file;
        this.problems = problems;
    }

    /** The runs logged at a visit, in order of day. */
    List<RunEntry> runs(Tree.Mapping visit, LocalDate visited) {
        List<RunEntry> runs = new ArrayList<>();
        if (member(visit, "run-log") instanceof Tree.Sequence list) {
            for (Tree item : list.items()) {
                run((Tree.Mapping) item, visited, runs);
            }
        }
        return List.copyOf(runs);
    }

    private void run(Tree.Mapping map, LocalDate visited, List<RunEntry> runs) {
        Optional<LocalDate> date = day(map, "date");
        OptionalDouble km = number(map, "km");
        if (date.isEmpty() || km.isEmpty()) {
            return;
        }
        if (date.get().isAfter(visited)) {
            problem(
                    map,
                    "The run of " + date.get() + " is after the visit of " + visited + "; correct one of the two.");
        }
        if (!runs.isEmpty() && !date.get().isAfter(runs.get(runs.size() - 1).date())) {
            problem(map, "The run of " + date.get() + " stands after a later one; put runs in order, one a day.");
        }
        runs.add(new RunEntry(
                date.get(),
                metres(km.getAsDouble()),
                number(map, "pain"),
                truth(map, "next-morning", "settled"),
                truth(map, "swelling", "present"),
                truth(map, "rising", "present")));
    }

    /** The plan block of a visit. */
    Optional<PlanEntry> plan(Tree.Mapping visit) {
        if (!(member(visit, "plan") instanceof Tree.Mapping map)) {
            return Optional.empty();
        }
        return Optional.of(new PlanEntry(
                said(map), programme(map, "return"), programme(map, "supported"), truth(map, "goal-met", "yes")));
    }

    /** The clinician's own decision in a block of a visit. */
    Optional<PlanEntry.Said> said(Tree.Mapping visit, String block) {
        return member(visit, block) instanceof Tree.Mapping map ? said(map) : Optional.empty();
    }

    private static Optional<PlanEntry.Said> said(Tree.Mapping map) {
        return text(map, "decision")
                .map(decision ->
                        new PlanEntry.Said(decision, text(map, "reason").orElse("")));
    }

    private Optional<PlanEntry.Programme> programme(Tree.Mapping plan, String key) {
        if (!(member(plan, key) instanceof Tree.Mapping map)) {
            return Optional.empty();
        }
        Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
        if (member(map, "days") instanceof Tree.Sequence list) {
            for (Tree item : list.items()) {
                days.add(DayOfWeek.valueOf(((Tree.Scalar) item).text().toUpperCase(Locale.ROOT)));
            }
        }
        OptionalDouble goal = number(map, "goal");
        return day(map, "start")
                .map(start -> new PlanEntry.Programme(
                        start,
                        (int) number(map, "step").orElse(1),
                        days,
                        goal.isPresent() ? OptionalLong.of(metres(goal.getAsDouble())) : OptionalLong.empty()));
    }

    private static long metres(double km) {
        return BigDecimal.valueOf(km)
                .multiply(BigDecimal.valueOf(METRES_A_KILOMETRE))
                .setScale(0, RoundingMode.HALF_UP)
                .longValueExact();
    }

    private Optional<LocalDate> day(Tree.Mapping map, String key) {
        Optional<String> text = text(map, key);
        try {
            return text.map(LocalDate::parse);
        } catch (DateTimeException e) {
            problem(map, "'" + text.orElse("") + "' is not a day of the calendar; correct it.");
            return Optional.empty();
        }
    }

    private static OptionalDouble number(Tree.Mapping map, String key) {
        Optional<String> text = text(map, key);
        return text.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(new BigDecimal(text.get().replace("_", "")).doubleValue());
    }

    private static Truth truth(Tree.Mapping map, String key, String yes) {
        return text(map, key).map(word -> Truth.of(word.equals(yes))).orElse(Truth.UNKNOWN);
    }

    private static Optional<String> text(Tree.Mapping map, String key) {
        return member(map, key) instanceof Tree.Scalar scalar ? Optional.of(scalar.text()) : Optional.empty();
    }

    private static @org.jspecify.annotations.Nullable Tree member(Tree.Mapping map, String key) {
        Tree.Member member = map.members().get(key);
        return member == null ? null : member.value();
    }

    private void problem(Tree tree, String message) {
        problems.add(new Problem(file, tree.place().line(), tree.place().column(), message));
    }
}
