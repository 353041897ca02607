package org.gerdy.engine.plan;

import java.util.List;
import java.util.Set;
import org.gerdy.engine.fact.FlagStanding;
import org.gerdy.engine.fact.Triage;
import org.gerdy.engine.logic.Answers;

/**
 * What a plan is chosen from.
 *
 * @param answers what is known at the visit
 * @param triage the result of triage
 * @param flags every red flag with its state; one that is missing counts as open
 * @param candidates conditions that lead or are plausible
 */
public record Situation(Answers answers, Triage triage, List<FlagStanding> flags, Set<String> candidates) {
    /** Whether this flag is known to be cleared. */
    boolean cleared(String flag) {
        return flags.stream()
                .filter(standing -> standing.flag().equals(flag))
                .findFirst()
                .map(standing -> standing.state().equals("cleared"))
                .orElse(false);
    }

    /** Whether this flag is raised. */
    boolean raised(String flag) {
        return flags.contains(new FlagStanding(flag, "raised"));
    }
}
