package org.gerdy.engine.measure;

/**
 * How far a repeat of the same measurement strays when nothing has changed. Formulas: Weir JP, Quantifying test-retest
 * reliability using the intraclass correlation coefficient and the SEM, J Strength Cond Res 2005;19(1):231-240
 * (recalled).
 */
public final class MeasurementError {
    /** Normal quantile that leaves 2.5 % above. */
    private static final double Z95 = 1.96;
    /** Normal quantile that leaves 5 % above. */
    private MeasurementError() {}

    /**
     * Standard error of measurement from the standard deviation of the sample in which the reliability was estimated.
     *
     * @param sd standard deviation, not negative
     * @param icc intraclass correlation, 0 to 1; 1 gives an error of 0, which no field measurement has
     */
    public static double sem(double sd, double icc) {
        if (!(sd >= 0) || !Double.isFinite(sd)) {
            throw new IllegalArgumentException("A standard deviation of " + sd + " cannot be; correct it.");
        }
        if (!(icc >= 0 && icc <= 1)) {
            throw new IllegalArgumentException(
                    "An intraclass correlation of " + icc + " is outside 0 to 1; correct it.");
        }
        return sd * Math.sqrt(1 - icc);
    }

    /** Smallest change of one person that is more than noise, with 95 % confidence. */
    public static double mdc95(double sem) {
        return Z95 * Math.sqrt(2) * notNegative(sem);
    }

    /** The error left after averaging over independent days: noise falls with the root of their number. */
    public static double overDays(double error, int days) {
        if (days < 1) {
            throw new IllegalArgumentException("An average needs at least one day.");
        }
        return notNegative(error) / Math.sqrt(days);
    }

    private static double notNegative(double error) {
        if (!(error >= 0) || !Double.isFinite(error)) {
            throw new IllegalArgumentException("An error of measurement of " + error + " cannot be; correct it.");
        }
        return error;
    }
}
