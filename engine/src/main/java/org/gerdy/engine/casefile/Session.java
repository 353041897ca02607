package org.gerdy.engine.casefile;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * One training session as recorded.
 *
 * @param day the runner's local calendar day it began on
 * @param start when it began, if recorded
 * @param metres distance in whole metres; empty when unknown, never zero for unknown
 * @param seconds duration without long stops
 * @param movingSeconds time in motion, if a device recorded it
 * @param effort session rating of perceived effort, 0 to 10
 * @param ascent metres climbed, smoothed
 * @param descent metres descended, smoothed
 * @param stepRate mean steps a minute, both sides
 * @param running whether the distance counts as run
 * @param surface surface, hill or camber as written, may be empty
 * @param device recorded by a device, not by hand
 * @param points positions recorded
 * @param source file, and line or track, it came from
 */
public record Session(
        LocalDate day,
        Optional<OffsetDateTime> start,
        OptionalLong metres,
        OptionalLong seconds,
        OptionalLong movingSeconds,
        OptionalDouble effort,
        OptionalDouble ascent,
        OptionalDouble descent,
        OptionalDouble stepRate,
        boolean running,
        String surface,
        boolean device,
        int points,
        String source) {

    /** A run written down by hand. */
    public static Session written(LocalDate day, OptionalLong metres, OptionalLong seconds, OptionalDouble effort) {
        return new Session(
                day,
                Optional.empty(),
                metres,
                seconds,
                OptionalLong.empty(),
                effort,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                true,
                "",
                false,
                0,
                "");
    }

    /** Effort times minutes, in arbitrary units (Foster 2001); empty without both. */
    public OptionalDouble effortLoad() {
        return effort.isPresent() && seconds.isPresent()
                ? OptionalDouble.of(effort.getAsDouble() * seconds.getAsLong() / 60.0)
                : OptionalDouble.empty();
    }

    /** Metres that count as run; empty when unknown. */
    public OptionalLong metresRun() {
        return running ? metres : OptionalLong.of(0);
    }

    /** The same, with what the other record of the same session knows and this one does not. */
    public Session filledFrom(Session other) {
        return new Session(
                day,
                start.isPresent() ? start : other.start,
                metres.isPresent() ? metres : other.metres,
                seconds.isPresent() ? seconds : other.seconds,
                movingSeconds.isPresent() ? movingSeconds : other.movingSeconds,
                effort.isPresent() ? effort : other.effort,
                ascent.isPresent() ? ascent : other.ascent,
                descent.isPresent() ? descent : other.descent,
                stepRate.isPresent() ? stepRate : other.stepRate,
                running,
                surface.isEmpty() ? other.surface : surface,
                device || other.device,
                points,
                source);
    }
}
