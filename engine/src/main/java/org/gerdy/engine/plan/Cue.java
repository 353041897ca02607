package org.gerdy.engine.plan;

/**
 * A target set against the runner's own usual value, such as steps a minute.
 *
 * @param percent how much above the usual value to aim, percent
 * @param capPercent the most it may go above, percent, not below {@code percent}
 */
public record Cue(double percent, double capPercent) {
    /** Throws {@link IllegalArgumentException} when the target lies above the cap. */
    public Cue {
        if (!(percent <= capPercent)) {
            throw new IllegalArgumentException("The target of " + percent + " % lies above the cap.");
        }
    }

    /** The target for this usual value, rounded to the nearest whole, in the same unit. */
    public long target(double usual) {
        return Math.round(usual * (100 + percent) / 100);
    }

    /** The most for this usual value, rounded down, in the same unit. */
    public long most(double usual) {
        return (long) Math.floor(usual * (100 + capPercent) / 100);
    }
}
