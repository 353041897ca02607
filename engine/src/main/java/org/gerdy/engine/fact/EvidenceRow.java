package org.gerdy.engine.fact;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.vocabulary.Basis;

/**
 * What one finding says about one condition.
 *
 * @param finding the finding's id
 * @param condition the condition's id
 * @param whenPresent likelihood ratio of the finding being present, if it carries weight
 * @param whenAbsent likelihood ratio of the finding being absent, if it carries weight
 * @param cluster findings of one cluster count once for a condition; empty stands alone
 * @param origin how the numbers came about, such as {@code published-pooled} or {@code verbal-weight}
 * @param basis where the numbers come from
 * @param sources bibliography keys
 * @param note which study was chosen and why
 */
public record EvidenceRow(
        String finding,
        String condition,
        Optional<Ratio> whenPresent,
        Optional<Ratio> whenAbsent,
        String cluster,
        String origin,
        Basis basis,
        List<String> sources,
        String note) {

    /**
     * A likelihood ratio with its 95 % bounds; all above zero, the bounds around the value.
     *
     * @param value ratio of probabilities, no unit
     * @param low lower 95 % bound
     * @param high upper 95 % bound
     */
    public record Ratio(double value, double low, double high) {
        /** Natural logarithm of the ratio. */
        public double log() {
            return Math.log(value);
        }

        /** Standard error of the logarithm, from the width of the 95 % bounds (log method, Simel 1991). */
        public double standardError() {
            return (Math.log(high) - Math.log(low)) / (2 * 1.959963984540054);
        }
    }

    /** The ratio for a state, if the row carries weight for it. */
    public Optional<Ratio> ratio(boolean present) {
        return present ? whenPresent : whenAbsent;
    }
}
