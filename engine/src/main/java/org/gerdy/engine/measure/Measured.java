package org.gerdy.engine.measure;

import java.util.Map;
import java.util.Optional;

/**
 * One measure as taken at one visit.
 *
 * @param measure id of the measure
 * @param setUp technique, position, device and what else was recorded of how it was done
 * @param left readings on the left, if taken
 * @param right readings on the right, if taken
 * @param whole readings of a measure that has no sides
 */
public record Measured(
        String measure,
        Map<String, String> setUp,
        Optional<Readings> left,
        Optional<Readings> right,
        Optional<Readings> whole) {
    /** Both sides, set up the same. */
    public static Measured sides(String measure, Map<String, String> setUp, Readings left, Readings right) {
        return new Measured(measure, setUp, Optional.of(left), Optional.of(right), Optional.empty());
    }

    /** A measure without sides. */
    public static Measured whole(String measure, Map<String, String> setUp, Readings readings) {
        return new Measured(measure, setUp, Optional.empty(), Optional.empty(), Optional.of(readings));
    }
}
