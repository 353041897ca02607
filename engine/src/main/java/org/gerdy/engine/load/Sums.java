package org.gerdy.engine.load;

import java.util.OptionalDouble;
import java.util.OptionalLong;

/** Sums that are unknown when a part is. */
final class Sums {
    private Sums() {}

    static OptionalLong of(OptionalLong one, OptionalLong two) {
        return one.isPresent() && two.isPresent()
                ? OptionalLong.of(one.getAsLong() + two.getAsLong())
                : OptionalLong.empty();
    }

    static OptionalDouble of(OptionalDouble one, OptionalDouble two) {
        return one.isPresent() && two.isPresent()
                ? OptionalDouble.of(one.getAsDouble() + two.getAsDouble())
                : OptionalDouble.empty();
    }
}
