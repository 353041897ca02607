package org.gerdy.engine.review;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A questionnaire or scale, of which only totals are kept.
 *
 * @param id stable name
 * @param label as shown
 * @param role what it stands for in the overall response
 * @param findings the findings that hold it; several are averaged
 * @param low smallest possible total
 * @param high largest possible total; empty where there is none
 * @param higherIsBetter the direction
 */
public record Instrument(
        String id,
        String label,
        Role role,
        List<String> findings,
        double low,
        OptionalDouble high,
        boolean higherIsBetter) {

    /** What an instrument stands for in the overall response. */
    public enum Role {
        PAIN,
        GOAL,
        SPORT,
        REGION,
        /** The patient's own view of the change; shown, never used alone. */
        GLOBAL
    }

    /** How far this total is from the best possible one; empty where there is no best. */
    public OptionalDouble headroom(double total) {
        if (!higherIsBetter) {
            return OptionalDouble.of(total - low);
        }
        return high.isPresent() ? OptionalDouble.of(high.getAsDouble() - total) : OptionalDouble.empty();
    }

    /** The change from one total to another; above zero is better. */
    public double gain(double from, double to) {
        return higherIsBetter ? to - from : from - to;
    }

    /** Whether the total is one the instrument can give. */
    public boolean canBe(double total) {
        return total >= low && (high.isEmpty() || total <= high.getAsDouble());
    }
}
