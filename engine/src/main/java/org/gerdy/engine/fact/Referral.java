package org.gerdy.engine.fact;

import org.drools.model.Drools;

/**
 * A threshold for sharing or referring that a rule found met.
 *
 * @param id a row of the referral table
 * @param about the condition or flag it is about, or empty
 * @param rule the rule that found it met
 */
public record Referral(String id, String about, String rule) implements Conclusion {
    /** Marks a threshold as met; called from a rule's consequence. */
    public static Referral met(String id, String about, Drools drools) {
        return new Referral(id, about, Rules.idOf(drools));
    }
}
