package org.gerdy.engine.plan;

import java.time.LocalDate;
import java.util.OptionalDouble;
import org.gerdy.engine.logic.Truth;

/**
 * A session as done. What was not asked stays unknown and never counts as good.
 *
 * @param date the day
 * @param metres distance walked and run, metres, not negative
 * @param pain worst pain during it, 0 to 10
 * @param settledByMorning whether pain was back to its usual level the next morning
 * @param swollenOrStiff whether the joint was swollen or stiff after it
 * @param risingWeekToWeek whether pain has been rising from week to week, as the patient sees it
 */
public record LoggedRun(
        LocalDate date,
        long metres,
        OptionalDouble pain,
        Truth settledByMorning,
        Truth swollenOrStiff,
        Truth risingWeekToWeek) {

    /** Throws {@link IllegalArgumentException} for a negative distance or a pain outside 0 to 10. */
    public LoggedRun {
        if (metres < 0) {
            throw new IllegalArgumentException("The distance of the run on " + date + " is below zero.");
        }
        if (pain.isPresent() && !(pain.getAsDouble() >= 0 && pain.getAsDouble() <= 10)) {
            throw new IllegalArgumentException("The pain of the run on " + date + " should be 0 to 10.");
        }
    }
}
