package org.gerdy.engine.measure;

import java.util.List;
import java.util.OptionalDouble;
import org.gerdy.engine.vocabulary.Basis;

/**
 * A named stretch of a measure's scale, both ends included. Bands of one measure stand in order of preference, so that a
 * value on a shared edge falls in the less alarming one.
 *
 * @param measure the measure
 * @param low lower end, if bounded
 * @param high upper end, if bounded
 * @param name the class
 * @param means what it does and does not imply, one sentence
 * @param sources bibliography keys
 * @param basis where the limits come from
 */
public record Band(
        String measure,
        OptionalDouble low,
        OptionalDouble high,
        String name,
        String means,
        List<String> sources,
        Basis basis) {
    /** Whether the value lies in the band. */
    public boolean holds(double value) {
        return value >= low.orElse(Double.NEGATIVE_INFINITY) && value <= high.orElse(Double.POSITIVE_INFINITY);
    }
}
