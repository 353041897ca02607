package org.gerdy.engine.casefile;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.Units;

/** Reads the runs block of a visit. A distance or duration without its unit is refused. */
final class RunNotesReader {
    private static final List<String> KEYS = List.of("zone", "unlisted", "files", "sessions", "rest");
    private static final List<String> SESSION_KEYS = List.of("date", "distance", "duration", "rpe", "kind", "surface");
    private static final Set<String> DISTANCES = Set.of("km", "mi", "m");
    private static final Set<String> TIMES = Set.of("min", "hours", "s");
    private static final int HARDEST = 10;
    private static final double FURTHEST_METRES = 1_000_000;

    private final String file;
    private final CaseFolder folder;
    private final List<Problem> problems;

    RunNotesReader(String file, CaseFolder folder, List<Problem> problems) {
        this.file = file;
        this.folder = folder;
        this.problems = problems;
    }

    /** What the block says; what is wrong goes to the problem list. */
    RunNotes read(Tree.Mapping block) {
        known(block, KEYS);
        List<RunNotes.Entry> sessions = new ArrayList<>();
        for (Tree item : items(block, "sessions")) {
            if (item instanceof Tree.Mapping session) {
                session(session).ifPresent(sessions::add);
            } else {
                problem(item.place(), "A session takes date:, distance:, duration:, rpe:.");
            }
        }
        Optional<ZoneId> zone = zone(block);
        List<RunNotes.RunFile> files = new ArrayList<>();
        for (Tree item : items(block, "files")) {
            text(item)
                    .ifPresentOrElse(
                            name -> open(name, zone.orElse(ZoneOffset.UTC), item.place())
                                    .ifPresent(log -> files.add(new RunNotes.RunFile(name, log))),
                            () -> problem(item.place(), "A file takes its name."));
        }
        Set<LocalDate> rest = new LinkedHashSet<>();
        for (Tree item : items(block, "rest")) {
            day(item).ifPresent(rest::add);
        }
        return new RunNotes(zone, everythingListed(block), List.copyOf(files), List.copyOf(sessions), Set.copyOf(rest));
    }

    private Optional<RunLog> open(String name, ZoneId zone, Tree.Place place) {
        try {
            return Optional.of(folder.open(name, zone));
        } catch (MendableException e) {
            problems.addAll(e.problems());
        } catch (IllegalArgumentException e) {
            problem(place, String.valueOf(e.getMessage()));
        }
        return Optional.empty();
    }

    private Optional<ZoneId> zone(Tree.Mapping block) {
        Tree.Member member = block.members().get("zone");
        if (member == null) {
            return Optional.empty();
        }
        try {
            return text(member.value()).map(ZoneId::of);
        } catch (DateTimeException e) {
            problem(
                    member.value().place(),
                    "'" + text(member.value()).orElse("") + "' is not a zone such as Europe/London.");
            return Optional.empty();
        }
    }

    private boolean everythingListed(Tree.Mapping block) {
        Tree.Member member = block.members().get("unlisted");
        if (member == null) {
            return false;
        }
        String word = text(member.value()).orElse("");
        if (!word.equals("rest") && !word.equals("unknown")) {
            problem(member.value().place(), "'unlisted' is '" + word + "'; it takes rest or unknown.");
        }
        return word.equals("rest");
    }

    private Optional<RunNotes.Entry> session(Tree.Mapping map) {
        int before = problems.size();
        known(map, SESSION_KEYS);
        Tree.Member date = map.members().get("date");
        if (date == null) {
            problem(map.place(), "The session has no date.");
            return Optional.empty();
        }
        Optional<LocalDate> day = day(date.value());
        OptionalDouble metres = amount(map, "distance", DISTANCES, "m");
        OptionalDouble seconds = amount(map, "duration", TIMES, "s");
        OptionalDouble effort = effort(map);
        return problems.size() == before
                ? Optional.of(new RunNotes.Entry(
                        day.orElseThrow(),
                        whole(metres),
                        whole(seconds),
                        effort,
                        word(map, "kind"),
                        word(map, "surface"),
                        map.place().line()))
                : Optional.empty();
    }

    private static OptionalLong whole(OptionalDouble value) {
        return value.isPresent() ? OptionalLong.of(Math.round(value.getAsDouble())) : OptionalLong.empty();
    }

    private OptionalDouble amount(Tree.Mapping map, String key, Set<String> units, String base) {
        Tree.Member member = map.members().get(key);
        if (member == null) {
            return OptionalDouble.empty();
        }
        String text = text(member.value()).orElse("");
        Optional<Units.Written> written = Units.read(text);
        if (written.isEmpty() || !units.contains(written.get().unit())) {
            problem(
                    member.value().place(),
                    "'" + text + "' is no " + key + "; write a number with "
                            + String.join(" or ", units.stream().sorted().toList()) + " behind it.");
            return OptionalDouble.empty();
        }
        double value =
                Units.convert(written.get().value(), written.get().unit(), base).orElseThrow();
        if (value < 0 || value > FURTHEST_METRES) {
            problem(member.value().place(), "A " + key + " of '" + text + "' cannot be; check number and unit.");
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(value);
    }

    private OptionalDouble effort(Tree.Mapping map) {
        Tree.Member member = map.members().get("rpe");
        if (member == null) {
            return OptionalDouble.empty();
        }
        Optional<Units.Written> written = text(member.value()).flatMap(Units::read);
        if (written.isEmpty()
                || !written.get().unit().isEmpty()
                || written.get().value() < 0
                || written.get().value() > HARDEST) {
            problem(member.value().place(), "'rpe' takes a bare number from 0 to 10.");
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(written.get().value());
    }

    private static String word(Tree.Mapping map, String key) {
        Tree.Member member = map.members().get(key);
        return member == null ? "" : text(member.value()).orElse("");
    }

    private Optional<LocalDate> day(Tree tree) {
        String text = text(tree).orElse("");
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException e) {
            problem(tree.place(), "'" + text + "' is not a day such as 2026-03-02.");
            return Optional.empty();
        }
    }

    private List<Tree> items(Tree.Mapping block, String key) {
        Tree.Member member = block.members().get(key);
        if (member == null) {
            return List.of();
        }
        if (member.value() instanceof Tree.Sequence list) {
            return list.items();
        }
        problem(member.value().place(), "'" + key + "' takes a list.");
        return List.of();
    }

    private void known(Tree.Mapping map, List<String> keys) {
        for (Map.Entry<String, Tree.Member> entry : map.members().entrySet()) {
            if (!keys.contains(entry.getKey())) {
                problem(
                        entry.getValue().key(),
                        "'" + entry.getKey() + "' does not belong here; it takes " + String.join(", ", keys) + "."
                                + Catalogue.nearest(entry.getKey(), keys)
                                        .map(nearest -> " Did you mean '" + nearest + "'?")
                                        .orElse(""));
            }
        }
    }

    private static Optional<String> text(Tree tree) {
        return tree instanceof Tree.Scalar scalar && scalar.type() != Tree.Type.NULL
                ? Optional.of(scalar.text().strip())
                : Optional.empty();
    }

    private void problem(Tree.Place place, String message) {
        problems.add(new Problem(file, place.line(), place.column(), message));
    }
}
