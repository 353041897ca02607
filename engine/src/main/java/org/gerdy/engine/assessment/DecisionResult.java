package org.gerdy.engine.assessment;

import java.util.List;

/**
 * A published decision rule for this patient.
 *
 * @param id the rule
 * @param label as shown
 * @param outcome positive, negative, not applicable or incomplete
 * @param met the criteria met
 * @param unanswered findings still needed
 * @param means what the outcome does and does not say
 * @param sources bibliography keys
 */
public record DecisionResult(
        String id,
        String label,
        Outcome outcome,
        List<String> met,
        List<String> unanswered,
        String means,
        List<String> sources) {

    /** How the rule came out. */
    public enum Outcome {
        POSITIVE,
        NEGATIVE,
        NOT_APPLICABLE,
        INCOMPLETE;

        /** The words used on screen and in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        }
    }
}
