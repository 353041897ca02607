package org.gerdy.engine.casefile;

import java.time.LocalDate;
import java.util.OptionalDouble;
import org.gerdy.engine.logic.Truth;

/**
 * A run as the patient logged it. What was not answered is unknown.
 *
 * @param date the day
 * @param metres distance walked and run, metres
 * @param pain worst pain during it, 0 to 10
 * @param settledByMorning whether pain was back to its usual level the next morning
 * @param swollenOrStiff whether the joint was swollen or stiff after it
 * @param risingWeekToWeek whether pain has been rising from week to week
 */
public record RunEntry(
        LocalDate date,
        long metres,
        OptionalDouble pain,
        Truth settledByMorning,
        Truth swollenOrStiff,
        Truth risingWeekToWeek) {}
