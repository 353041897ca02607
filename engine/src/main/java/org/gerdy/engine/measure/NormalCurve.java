package org.gerdy.engine.measure;

/** The standard normal distribution. */
public final class NormalCurve {
    /** Below this the power series is short; above it the continued fraction is. */
    private static final double SERIES_LIMIT = 3;

    private NormalCurve() {}

    /**
     * The share of a normal population below {@code z} standard deviations, 0 to 1. Series and continued fraction of
     * Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.11 and 26.2.14.
     */
    public static double below(double z) {
        if (Double.isNaN(z)) {
            throw new IllegalArgumentException("A z-score is not a number.");
        }
        double size = Math.abs(z);
        double above = size < SERIES_LIMIT ? 0.5 - density(size) * series(size) : density(size) / fraction(size);
        return z >= 0 ? 1 - above : above;
    }

    private static double density(double z) {
        return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    private static double series(double z) {
        double term = z;
        double sum = z;
        for (int n = 1; term > sum * 1e-17; n++) {
            term *= z * z / (2 * n + 1);
            sum += term;
        }
        return sum;
    }

    private static double fraction(double z) {
        double value = z;
        for (int n = 200; n >= 1; n--) {
            value = z + n / value;
        }
        return value;
    }
}
