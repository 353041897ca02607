package org.gerdy.engine.drill;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * What somebody commits to.
 *
 * @param urgency how soon somebody else must see the patient
 * @param confidences candidates with the confidence in each, 0 to 1; together at most 1, the rest is everything else
 * @param factors contributing factors
 * @param plan first plan items; empty leaves the plan to whoever sees the patient next
 * @param settles questions or tests that would settle it
 */
public record Commitment(
        Urgency urgency, Map<String, Double> confidences, Set<String> factors, Set<String> plan, Set<String> settles) {

    /** Throws {@link IllegalArgumentException} when a confidence is not between 0 and 1 or all together exceed 1. */
    public Commitment {
        double sum = 0;
        for (double confidence : confidences.values()) {
            if (!(confidence >= 0 && confidence <= 1)) {
                throw new IllegalArgumentException("A confidence lies between 0 and 1.");
            }
            sum += confidence;
        }
        if (sum > 1 + 1e-9) {
            throw new IllegalArgumentException("The confidences add up to more than 1.");
        }
        confidences = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(confidences));
        factors = set(factors);
        plan = set(plan);
        settles = set(settles);
    }

    private static Set<String> set(Collection<String> ids) {
        return java.util.Collections.unmodifiableSet(new LinkedHashSet<>(ids));
    }
}
