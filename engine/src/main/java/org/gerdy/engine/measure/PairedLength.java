package org.gerdy.engine.measure;

import java.util.OptionalDouble;
import org.gerdy.engine.logic.Comparison;

/**
 * The length of the two sides compared three ways: end to end, from the trunk, and by what it takes to level the trunk
 * when standing. Each number is affected minus other, in one unit; plus says the affected side is the longer.
 *
 * @param endToEnd difference of the side's own length (true length)
 * @param fromTrunk difference of the length from a point of the trunk (apparent length)
 * @param standing difference by blocks; the block lies under the shorter side
 */
public record PairedLength(OptionalDouble endToEnd, OptionalDouble fromTrunk, OptionalDouble standing) {

    /** What the three together look like. */
    public enum Pattern {
        /** Nothing to compare. */
        NOT_MEASURED,
        /** No difference of the size asked about. */
        EQUAL,
        /** Two methods name opposite sides as the shorter. */
        METHODS_DISAGREE,
        /** A difference by tape, not yet checked by blocks. */
        UNCONFIRMED,
        /** The side's own length differs, by blocks, and no tape contradicts it. */
        TRUE_DIFFERENCE,
        /** Own length equal by tape, yet unequal from the trunk or on blocks. */
        APPARENT_ONLY
    }

    /** The pattern, counting only differences larger than {@code least}. */
    public Pattern pattern(double least) {
        if (endToEnd.isEmpty() && fromTrunk.isEmpty() && standing.isEmpty()) {
            return Pattern.NOT_MEASURED;
        }
        int tape = sign(endToEnd, least);
        int trunk = sign(fromTrunk, least);
        int blocks = sign(standing, least);
        if (tape * blocks < 0) {
            return Pattern.METHODS_DISAGREE;
        }
        if (tape == 0 && endToEnd.isPresent() && (trunk != 0 || blocks != 0)) {
            return Pattern.APPARENT_ONLY;
        }
        if (blocks != 0) {
            return Pattern.TRUE_DIFFERENCE;
        }
        if (tape != 0 || trunk != 0) {
            return Pattern.UNCONFIRMED;
        }
        return Pattern.EQUAL;
    }

    private static int sign(OptionalDouble difference, double least) {
        if (difference.isEmpty() || !Comparison.ABOVE.holds(Math.abs(difference.getAsDouble()), least)) {
            return 0;
        }
        return difference.getAsDouble() > 0 ? 1 : -1;
    }
}
