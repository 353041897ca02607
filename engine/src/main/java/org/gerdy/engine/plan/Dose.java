package org.gerdy.engine.plan;

import java.util.Optional;
import org.gerdy.engine.knowledge.NumberRange;

/**
 * How much of a plan item. A number that is empty is unknown, never zero.
 *
 * @param text the whole dose in words
 * @param sets sets in a session
 * @param reps repetitions in a set, or passes
 * @param holdSeconds how long each is held, in seconds
 * @param perWeek sessions a week
 * @param perDay sessions a day
 * @param bothSides whether both sides do it
 */
public record Dose(
        String text,
        Optional<NumberRange> sets,
        Optional<NumberRange> reps,
        Optional<NumberRange> holdSeconds,
        Optional<NumberRange> perWeek,
        Optional<NumberRange> perDay,
        boolean bothSides) {}
