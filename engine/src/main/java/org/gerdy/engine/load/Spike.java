package org.gerdy.engine.load;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * One session's distance against the longest session of the days before it (Frandsen 2025).
 *
 * @param day day of the session
 * @param metres its distance
 * @param reference the longest earlier session of the window, in metres; empty when there is none
 * @param knownDays days of the window that are known
 * @param state where the increase falls
 */
public record Spike(LocalDate day, long metres, OptionalLong reference, int knownDays, State state) {
    /** How many edges part the states. */
    static final int BANDS = 3;

    /** Where an increase falls; an increase exactly on an edge takes the lower state. */
    public enum State {
        /** No earlier session in the window; this is not an increase without bound. */
        NO_REFERENCE,
        /** Too many days of the window are unknown; a longer run may be missing. */
        REFERENCE_INCOMPLETE,
        /** No increase, or one up to the first edge. */
        REFERENCE,
        SMALL,
        MODERATE,
        LARGE;

        /** As shown. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** The increase in percent, exact where the true value is a whole number; empty without a reference. */
    public OptionalDouble percent() {
        return reference.isPresent()
                ? OptionalDouble.of(100L * (metres - reference.getAsLong()) / (double) reference.getAsLong())
                : OptionalDouble.empty();
    }

    /** The state of an increase, by whole metres so that an edge is an edge. */
    public static State state(long metres, OptionalLong reference, int knownDays, LoadSettings settings) {
        if (reference.isEmpty()) {
            return State.NO_REFERENCE;
        }
        if (knownDays < settings.referenceKnownDays()) {
            return State.REFERENCE_INCOMPLETE;
        }
        List<Integer> bands = settings.spikeBands();
        State[] states = {State.REFERENCE, State.SMALL, State.MODERATE};
        for (int i = 0; i < BANDS; i++) {
            if (metres * 100 <= reference.getAsLong() * (100 + bands.get(i))) {
                return states[i];
            }
        }
        return State.LARGE;
    }
}
