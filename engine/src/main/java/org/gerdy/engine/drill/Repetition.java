package org.gerdy.engine.drill;

import java.time.LocalDate;

/**
 * When a condition comes back: algorithm SM-2 (Wozniak 1990, Optimization of learning, section 3.2). Intervals of 1 and 6
 * days, then the last interval times the easiness factor, rounded up; the factor starts at 2.5 and never falls below 1.3;
 * a grade below 3 starts the intervals over and leaves the factor alone.
 *
 * @param repetitions grades of 3 or more in a row
 * @param interval days until the next time, 0 before the first
 * @param easiness the easiness factor
 * @param due the day it comes back
 */
public record Repetition(int repetitions, int interval, double easiness, LocalDate due) {
    private static final double FIRST_EASINESS = 2.5;
    private static final double LEAST_EASINESS = 1.3;
    private static final int FIRST_INTERVAL = 1;
    private static final int SECOND_INTERVAL = 6;
    private static final int PASSED = 3;

    /** Not practised yet; due at once. */
    public static Repetition fresh(LocalDate today) {
        return new Repetition(0, 0, FIRST_EASINESS, today);
    }

    /** After practice on this day with this grade. Throws {@link IllegalArgumentException} outside 0 to 5. */
    public Repetition graded(int grade, LocalDate today) {
        if (grade < 0 || grade > 5) {
            throw new IllegalArgumentException("A grade lies between 0 and 5.");
        }
        if (grade < PASSED) {
            return new Repetition(0, FIRST_INTERVAL, easiness, today.plusDays(FIRST_INTERVAL));
        }
        int next =
                switch (repetitions) {
                    case 0 -> FIRST_INTERVAL;
                    case 1 -> SECOND_INTERVAL;
                    default -> (int) Math.ceil(interval * easiness - 1e-9);
                };
        int short5 = 5 - grade;
        double factor = Math.max(LEAST_EASINESS, easiness + 0.1 - short5 * (0.08 + short5 * 0.02));
        return new Repetition(repetitions + 1, next, factor, today.plusDays(next));
    }
}
