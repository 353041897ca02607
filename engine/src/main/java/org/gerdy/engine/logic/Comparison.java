package org.gerdy.engine.logic;

/**
 * How a number is held against a cut-off. Values are compared as recorded, never rounded; only what arithmetic in binary
 * fractions leaves behind, a billionth part, is no difference, so that 40.1 less 37.1 is 3. A sign that begins another
 * comes after it.
 */
public enum Comparison {
    AT_LEAST(">="),
    AT_MOST("<="),
    ABOVE(">"),
    BELOW("<"),
    EQUAL("=");

    private static final double NOISE = 1e-9;

    private final String sign;

    Comparison(String sign) {
        this.sign = sign;
    }

    /** The sign used in expressions. */
    public String sign() {
        return sign;
    }

    /** Whether {@code value} stands in this relation to {@code cutOff}. */
    public boolean holds(double value, double cutOff) {
        double noise = NOISE * Math.max(1, Math.abs(cutOff));
        return switch (this) {
            case AT_LEAST -> value >= cutOff - noise;
            case AT_MOST -> value <= cutOff + noise;
            case ABOVE -> value > cutOff + noise;
            case BELOW -> value < cutOff - noise;
            case EQUAL -> Math.abs(value - cutOff) <= noise;
        };
    }
}
