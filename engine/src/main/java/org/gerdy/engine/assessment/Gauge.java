package org.gerdy.engine.assessment;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One axis of a factor: what was measured beside what it is held against, all in one unit.
 *
 * @param title what the axis is of, such as {@code painful side over the other}
 * @param unit unit of every number, may be empty
 * @param marks what was measured, the painful side first; at least one
 * @param error smallest difference that is more than noise, each way of every mark; empty when none was read
 * @param group what a described group of people reads, if known
 * @param lines cut-offs, and the point where both sides are equal
 */
public record Gauge(
        String title, String unit, List<Mark> marks, OptionalDouble error, Optional<Group> group, List<Line> lines) {

    /**
     * A value.
     *
     * @param side {@code left} or {@code right}, empty when the value is of no side
     * @param value the number
     */
    public record Mark(String side, double value) {}

    /**
     * The span of a group; one end or both may be missing, then only the middle is known.
     *
     * @param low lower end
     * @param high upper end
     * @param middle mean
     * @param words what the numbers are and who was measured
     */
    public record Group(OptionalDouble low, OptionalDouble high, OptionalDouble middle, String words) {}

    /** What a line on the axis says. */
    public enum Meaning {
        /** Both sides are equal here. */
        EQUAL,
        /** Beyond this it is borderline. */
        BORDERLINE,
        /** Beyond this, and beyond the error, it contributes. */
        CONTRIBUTES
    }

    /** A line across the axis. */
    public record Line(double at, Meaning meaning) {}

    /** Whether the axis shows more than the value by itself. */
    public boolean compares() {
        return error.isPresent() || group.isPresent() || !lines.isEmpty() || marks.size() > 1;
    }
}
