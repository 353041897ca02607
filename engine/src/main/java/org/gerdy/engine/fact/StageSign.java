package org.gerdy.engine.fact;

import org.drools.model.Drools;

/**
 * A sign that the patient is at a stage. Where several rules point at different stages, the earliest of the stages table
 * wins.
 *
 * @param stage a stage of the stages table
 * @param rule the rule that saw it
 */
public record StageSign(String stage, String rule) implements Conclusion {
    /** Points at a stage; called from a rule's consequence. */
    public static StageSign of(String stage, Drools drools) {
        return new StageSign(stage, Rules.idOf(drools));
    }
}
