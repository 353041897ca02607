package org.gerdy.engine.logic;

/**
 * How a number is held against a cut-off. Values are compared as recorded, never rounded. A sign that begins another comes
 * after it.
 */
public enum Comparison {
    AT_LEAST(">="),
    AT_MOST("<="),
    ABOVE(">"),
    BELOW("<"),
    EQUAL("=");

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
        return switch (this) {
            case AT_LEAST -> value >= cutOff;
            case AT_MOST -> value <= cutOff;
            case ABOVE -> value > cutOff;
            case BELOW -> value < cutOff;
            case EQUAL -> value == cutOff;
        };
    }
}
