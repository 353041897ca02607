package org.gerdy.engine.assessment;

import java.util.List;
import org.gerdy.engine.vocabulary.Basis;

/**
 * A condition of the differential as weighed.
 *
 * @param condition the condition's id
 * @param name as shown
 * @param share part of all candidates, 0 to 1; orders them and is no validated probability
 * @param low lower 95 % bound of the share
 * @param high upper 95 % bound of the share
 * @param standing leading, plausible or unlikely
 * @param mustNotMiss whether missing it does lasting harm
 * @param disposition how it is usually handled
 * @param supporting evidence for it, strongest first
 * @param opposing evidence against it, strongest first
 * @param settle findings not yet known that would move it most
 */
public record CandidateResult(
        String condition,
        String name,
        double share,
        double low,
        double high,
        Standing standing,
        boolean mustNotMiss,
        String disposition,
        List<Weight> supporting,
        List<Weight> opposing,
        List<String> settle) {

    /** How a candidate stands. */
    public enum Standing {
        LEADING,
        PLAUSIBLE,
        UNLIKELY;

        /** The word used on screen and in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * One finding's weight.
     *
     * @param finding the finding's id
     * @param present whether it was present
     * @param ratio its likelihood ratio
     * @param counted whether it counted; the weaker findings of a cluster do not
     * @param basis where the ratio comes from
     * @param sources bibliography keys
     */
    public record Weight(
            String finding, boolean present, double ratio, boolean counted, Basis basis, List<String> sources) {}
}
