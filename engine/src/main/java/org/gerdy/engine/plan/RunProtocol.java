package org.gerdy.engine.plan;

import java.util.List;

/**
 * A walk-run table with the limits that go with it.
 *
 * @param steps the steps, easiest first
 * @param cap how long one session may be
 * @param sessionsPerStep how often a step is done in full before the next
 * @param restDays whole days without running between two runs
 * @param restAfterBack whole days without running after a step back
 * @param backsBeforeReview steps back in a row that stop the schedule
 * @param horizonDays after how many days the schedule ends for a fresh look
 * @param logRounding how finely a log is kept, metres; a run that falls short by less was done in full
 */
public record RunProtocol(
        List<RunStep> steps,
        SessionCap cap,
        int sessionsPerStep,
        int restDays,
        int restAfterBack,
        int backsBeforeReview,
        int horizonDays,
        long logRounding) {
    /** Throws {@link IllegalArgumentException} for an empty table or a limit below its smallest sense. */
    public RunProtocol {
        steps = List.copyOf(steps);
        if (steps.isEmpty()
                || sessionsPerStep < 1
                || restDays < 0
                || restAfterBack < restDays
                || backsBeforeReview < 1
                || horizonDays < 1
                || logRounding < 1) {
            throw new IllegalArgumentException("A run protocol needs steps, sessions, rest days and an end.");
        }
    }
}
