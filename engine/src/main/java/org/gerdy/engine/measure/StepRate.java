package org.gerdy.engine.measure;

/**
 * How many steps a minute, both sides counted.
 *
 * @param stepsPerMinute above 0
 */
public record StepRate(double stepsPerMinute) {
    private static final int SECONDS_A_MINUTE = 60;
    private static final int METRES_A_KILOMETRE = 1000;

    /** Throws {@link IllegalArgumentException} unless above 0. */
    public StepRate {
        if (!(stepsPerMinute > 0) || !Double.isFinite(stepsPerMinute)) {
            throw new IllegalArgumentException("A step rate of " + stepsPerMinute + " cannot be; count again.");
        }
    }

    /** The rate from strides, each of two steps. */
    public static StepRate ofStrides(double stridesPerMinute) {
        return new StepRate(2 * stridesPerMinute);
    }

    /** The rate raised by a percentage, in whole steps a minute. */
    public long raisedBy(double percent) {
        return Math.round(stepsPerMinute * (100 + percent) / 100);
    }

    /** Step length in metres at a speed in m/s. */
    public double stepLength(double metresPerSecond) {
        return metresPerSecond * SECONDS_A_MINUTE / stepsPerMinute;
    }

    /** Steps in a kilometre at a speed in m/s, both sides. */
    public double stepsPerKilometre(double metresPerSecond) {
        return stepsPerMinute * METRES_A_KILOMETRE / (SECONDS_A_MINUTE * metresPerSecond);
    }
}
