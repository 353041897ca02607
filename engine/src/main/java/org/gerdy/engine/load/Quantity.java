package org.gerdy.engine.load;

import java.util.OptionalDouble;

/**
 * One number of a load report, or why there is none.
 *
 * @param id stable name
 * @param label as shown
 * @param value the number; empty when what it needs is missing
 * @param unit its unit, may be empty
 * @param remark why there is no number, or how far to trust it; may be empty
 */
public record Quantity(String id, String label, OptionalDouble value, String unit, String remark) {
    static Quantity of(String id, String label, double value, String unit, String remark) {
        return new Quantity(id, label, OptionalDouble.of(value), unit, remark);
    }

    static Quantity none(String id, String label, String unit, String why) {
        return new Quantity(id, label, OptionalDouble.empty(), unit, why);
    }
}
