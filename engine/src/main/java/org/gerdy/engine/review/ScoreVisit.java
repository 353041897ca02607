package org.gerdy.engine.review;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;

/**
 * The totals recorded at one visit.
 *
 * @param date the day
 * @param totals total by finding; what was not recorded is missing, never zero
 */
public record ScoreVisit(LocalDate date, Map<String, Double> totals) {
    /** Copies the totals. */
    public ScoreVisit {
        totals = Map.copyOf(totals);
    }

    /** Which of these findings were recorded. */
    Set<String> recorded(List<String> findings) {
        Set<String> found = new TreeSet<>(findings);
        found.retainAll(totals.keySet());
        return found;
    }

    /** The mean over exactly these findings; empty when one is missing or none is named. */
    OptionalDouble mean(Set<String> findings) {
        if (findings.isEmpty() || !totals.keySet().containsAll(findings)) {
            return OptionalDouble.empty();
        }
        return findings.stream()
                .mapToDouble(finding -> totals.getOrDefault(finding, Double.NaN))
                .average();
    }
}
