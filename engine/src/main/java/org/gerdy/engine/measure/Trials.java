package org.gerdy.engine.measure;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Repeated readings of one thing on one side, in one unit, in the order they were taken.
 *
 * @param values at least one, all finite
 */
public record Trials(List<Double> values) {
    /** Throws {@link IllegalArgumentException} when there is no reading or one is not a finite number. */
    public Trials {
        values = List.copyOf(values);
        if (values.isEmpty()) {
            throw new IllegalArgumentException("There is no reading; give at least one trial.");
        }
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException("A reading is not a number; correct it or leave it out.");
            }
        }
    }

    /** These readings. */
    public static Trials of(double... values) {
        return new Trials(java.util.Arrays.stream(values).boxed().toList());
    }

    /** Which number stands for the set. */
    public enum Aggregate {
        /** The highest. */
        BEST,
        /** The arithmetic mean. */
        MEAN
    }

    /** The number that stands for the set. */
    public double value(Aggregate aggregate) {
        return aggregate == Aggregate.BEST ? best() : mean();
    }

    /** The highest reading. */
    public double best() {
        return values.stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    }

    /** The lowest reading. */
    public double least() {
        return values.stream().mapToDouble(Double::doubleValue).min().orElseThrow();
    }

    /** The arithmetic mean. */
    public double mean() {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.size();
    }

    /** The sample standard deviation (divisor n - 1); empty with one reading. */
    public OptionalDouble standardDeviation() {
        if (values.size() < 2) {
            return OptionalDouble.empty();
        }
        double mean = mean();
        double squares = 0;
        for (double value : values) {
            squares += (value - mean) * (value - mean);
        }
        return OptionalDouble.of(Math.sqrt(squares / (values.size() - 1)));
    }

    /** Whether the last reading tops all earlier ones by more than {@code percent}; then another trial is due. */
    public boolean stillRising(double percent) {
        if (values.size() < 2) {
            return false;
        }
        double last = values.get(values.size() - 1);
        double before = new Trials(values.subList(0, values.size() - 1)).best();
        return before > 0 && 100 * (last - before) / before > percent;
    }
}
