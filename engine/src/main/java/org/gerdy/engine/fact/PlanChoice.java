package org.gerdy.engine.fact;

import org.drools.model.Drools;

/**
 * A plan item a rule finds fitting. Whether it may be given is decided afterwards, from the item's contraindications.
 *
 * @param item a row of the plan table
 * @param rule the rule that chose it
 */
public record PlanChoice(String item, String rule) implements Conclusion {
    /** Chooses an item; called from a rule's consequence. */
    public static PlanChoice take(String item, Drools drools) {
        return new PlanChoice(item, Rules.idOf(drools));
    }
}
