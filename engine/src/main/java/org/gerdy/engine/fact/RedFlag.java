package org.gerdy.engine.fact;

import org.drools.model.Drools;

/**
 * A row of a red flag whose danger sign is there.
 *
 * @param row the row of the red flag table, {@code flag/what-it-says}
 * @param rule the rule that raised it
 */
public record RedFlag(String row, String rule) implements Conclusion {
    /** Raises a row; called from a rule's consequence. */
    public static RedFlag raise(String row, Drools drools) {
        return new RedFlag(row, Rules.idOf(drools));
    }
}
