package org.gerdy.engine.fact;

/**
 * A contributing factor as measured, as plan rules see it.
 *
 * @param factor the factor's id
 * @param verdict {@code contributes}, {@code borderline}, {@code not-found} or {@code not-measured}
 */
public record FactorFinding(String factor, String verdict) {
    /** The factor's id. */
    public String getFactor() {
        return factor;
    }

    /** {@code contributes}, {@code borderline}, {@code not-found} or {@code not-measured}. */
    public String getVerdict() {
        return verdict;
    }
}
