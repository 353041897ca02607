package org.gerdy.engine.fact;

/**
 * A condition worth naming, as referral and plan rules see it.
 *
 * @param condition the condition's id
 * @param standing {@code leading}, {@code plausible} or {@code unlikely}
 * @param disposition how it is usually handled, such as {@code refer-urgent}
 * @param mustNotMiss whether missing it does lasting harm
 */
public record Candidate(String condition, String standing, String disposition, boolean mustNotMiss) {
    /** The condition's id. */
    public String getCondition() {
        return condition;
    }

    /** {@code leading}, {@code plausible} or {@code unlikely}. */
    public String getStanding() {
        return standing;
    }

    /** How it is usually handled. */
    public String getDisposition() {
        return disposition;
    }

    /** Whether missing it does lasting harm. */
    public boolean isMustNotMiss() {
        return mustNotMiss;
    }
}
