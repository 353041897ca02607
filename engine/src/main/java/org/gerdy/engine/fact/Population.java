package org.gerdy.engine.fact;

import org.drools.model.Drools;

/**
 * Which column of prior odds applies to this patient.
 *
 * @param id a population of the priors table
 * @param rank the rule's place where several apply; the lowest wins
 * @param rule the rule that chose it
 */
public record Population(String id, int rank, String rule) implements Conclusion {
    /** Chooses a population; called from a rule's consequence. Where several rules choose, the lowest rank wins. */
    public static Population use(String id, int rank, Drools drools) {
        return new Population(id, rank, Rules.idOf(drools));
    }
}
