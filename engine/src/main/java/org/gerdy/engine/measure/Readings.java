package org.gerdy.engine.measure;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * What was read on one side.
 *
 * @param series readings by series name, in the measure's reading unit; an item not scored is empty
 * @param word the observation or grade, empty for measures that give numbers
 * @param leverMetres lever arm, if the measure has one and it was taken
 * @param pain pain during the test, 0 to 10, if asked
 */
public record Readings(
        Map<String, List<OptionalDouble>> series, String word, OptionalDouble leverMetres, OptionalDouble pain) {
    /** Readings of a single series, nothing else recorded. */
    public static Readings of(double... values) {
        return new Readings(
                Map.of(
                        "trials",
                        java.util.Arrays.stream(values)
                                .mapToObj(OptionalDouble::of)
                                .toList()),
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }

    /** An observation or grade. */
    public static Readings of(String word) {
        return new Readings(Map.of(), word, OptionalDouble.empty(), OptionalDouble.empty());
    }

    /** The same with a lever arm in metres. */
    public Readings withLever(double metres) {
        return new Readings(series, word, OptionalDouble.of(metres), pain);
    }

    /** The same with pain during the test. */
    public Readings withPain(double score) {
        return new Readings(series, word, leverMetres, OptionalDouble.of(score));
    }

    /** The known readings of a series. Throws {@link IllegalArgumentException} when there is none. */
    public Trials trials(String name) {
        return new Trials(series.getOrDefault(name, List.of()).stream()
                .filter(OptionalDouble::isPresent)
                .map(OptionalDouble::getAsDouble)
                .toList());
    }
}
