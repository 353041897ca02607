package org.gerdy.engine.casefile;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.logic.Truth;

/**
 * What clinician and patient settled about the plan at a visit.
 *
 * @param said the clinician's own decision, if it was written down
 * @param returning what the way back to running is dated from
 * @param supported what running with part of the weight taken off is dated from
 * @param goalMet whether the patient's own goal is reached
 */
public record PlanEntry(
        Optional<Said> said, Optional<Programme> returning, Optional<Programme> supported, Truth goalMet) {

    /** A clinician's decision and the reason for it, in the clinician's words. */
    public record Said(String decision, String reason) {}

    /**
     * The frame of a dated programme.
     *
     * @param start first day
     * @param step first step, from 1
     * @param days weekdays that suit
     * @param goalMetres the distance that ends it, metres; empty where none was set
     */
    public record Programme(LocalDate start, int step, Set<DayOfWeek> days, OptionalLong goalMetres) {
        /** Copies the days. */
        public Programme {
            days = Set.copyOf(days);
        }
    }
}
