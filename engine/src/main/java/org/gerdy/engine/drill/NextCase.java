package org.gerdy.engine.drill;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Which patient comes next: a condition whose day has come, else a pair of condition and difficulty not met yet, in an
 * order of the learner's own. No number comes twice.
 */
public final class NextCase {
    private final PatientMaker maker;
    private final DrillTables tables;

    /** Chooses among what this maker can make. */
    public NextCase(PatientMaker maker, DrillTables tables) {
        this.maker = maker;
        this.tables = tables;
    }

    /** The number of the next patient. */
    public long seed(Progress progress, LocalDate today) {
        Set<String> met =
                progress.played().stream().map(Progress.Played::caseId).collect(Collectors.toSet());
        PatientMaker.Draw wanted = wanted(progress, today);
        long from = Math.floorMod(progress.learner().hashCode(), 90_000) + 10_000L;
        long seed = maker.seed(wanted.condition(), wanted.difficulty(), from);
        while (met.contains(Long.toString(seed))) {
            seed = maker.seed(wanted.condition(), wanted.difficulty(), seed + 1);
        }
        return seed;
    }

    private PatientMaker.Draw wanted(Progress progress, LocalDate today) {
        Set<PatientMaker.Draw> met = new HashSet<>();
        for (Progress.Played one : progress.played()) {
            if (!one.causes().isEmpty()) {
                Difficulty.of(one.difficulty())
                        .ifPresent(difficulty ->
                                met.add(new PatientMaker.Draw(one.causes().get(0), difficulty)));
            }
        }
        Optional<String> due = progress.schedule(tables.settings()).entrySet().stream()
                .filter(entry -> maker.conditions().contains(entry.getKey()))
                .filter(entry -> !entry.getValue().due().isAfter(today))
                .min(Comparator.comparing((Map.Entry<String, Repetition> entry) ->
                                entry.getValue().due())
                        .thenComparing(entry -> entry.getValue().easiness())
                        .thenComparing(Map.Entry::getKey))
                .map(Map.Entry::getKey);
        List<PatientMaker.Draw> pool = new ArrayList<>();
        for (String condition : maker.conditions()) {
            for (Difficulty difficulty : Difficulty.values()) {
                pool.add(new PatientMaker.Draw(condition, difficulty));
            }
        }
        Collections.shuffle(pool, new Random(progress.learner().hashCode()));
        List<PatientMaker.Draw> fresh =
                pool.stream().filter(draw -> !met.contains(draw)).toList();
        List<PatientMaker.Draw> from = fresh.isEmpty() ? pool : fresh;
        if (due.isPresent()) {
            return from.stream()
                    .filter(draw -> draw.condition().equals(due.get()))
                    .findFirst()
                    .orElseGet(() -> new PatientMaker.Draw(
                            due.get(),
                            List.of(Difficulty.values()).get(progress.played().size() % Difficulty.values().length)));
        }
        return from.get(progress.played().size() % from.size());
    }
}
