package org.gerdy.engine.plan;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.gerdy.engine.logic.Truth;

/** Running with part of the weight taken off, dated; each step takes a week at least, never on two days in a row. */
public final class SupportedSchedule {
    /** What a plan item says it opens when it opens this schedule. */
    public static final String OPENED_BY = "support-schedule";

    private static final int WEEK = 7;

    private final List<SupportStep> steps;
    private final int restDays;

    /**
     * A schedule of these steps.
     *
     * @param steps the steps, most support first
     * @param restDays whole days between two sessions, 1 or more
     * @param clearance proof that a plan allows it
     * @throws IllegalArgumentException for another clearance, no rest, or a step that takes off more than the one before
     */
    public SupportedSchedule(List<SupportStep> steps, int restDays, Plan.Clearance clearance) {
        if (!clearance.opens().equals(OPENED_BY)) {
            throw new IllegalArgumentException("The clearance is for " + clearance.opens() + ", not for this.");
        }
        if (restDays < 1 || steps.isEmpty()) {
            throw new IllegalArgumentException("A supported schedule needs steps and a day of rest between sessions.");
        }
        for (int i = 1; i < steps.size(); i++) {
            if (steps.get(i).support().takesOffMoreThan(steps.get(i - 1).support())) {
                throw new IllegalArgumentException("Step " + steps.get(i).week()
                        + " takes more off than the step before it; weight and support may have been mixed up.");
            }
        }
        this.steps = List.copyOf(steps);
        this.restDays = restDays;
    }

    /** One planned session. */
    public record Session(LocalDate date, SupportStep step) {}

    /**
     * The sessions from this day on; none when no weekday suits.
     *
     * @param from first day
     * @param startStep first step, from 1 to the number of steps
     * @param days weekdays that suit
     * @throws IllegalArgumentException when the start step is not of the table
     */
    public List<Session> plan(LocalDate from, int startStep, Set<DayOfWeek> days) {
        if (startStep < 1 || startStep > steps.size()) {
            throw new IllegalArgumentException(
                    "The start step should be 1 to " + steps.size() + ", not " + startStep + ".");
        }
        List<Session> sessions = new ArrayList<>();
        if (days.isEmpty()) {
            return sessions;
        }
        LocalDate earliest = from;
        for (SupportStep step : steps.subList(startStep - 1, steps.size())) {
            LocalDate weekStart = next(earliest, days);
            LocalDate day = weekStart;
            int done = 0;
            while (done < step.sessions().low()
                    || (done < step.sessions().high() && day.isBefore(weekStart.plusDays(WEEK)))) {
                sessions.add(new Session(day, step));
                done++;
                earliest = day.plusDays(1L + restDays);
                day = next(earliest, days);
            }
            LocalDate weekEnd = weekStart.plusDays(WEEK);
            earliest = earliest.isAfter(weekEnd) ? earliest : weekEnd;
        }
        return List.copyOf(sessions);
    }

    private static LocalDate next(LocalDate from, Set<DayOfWeek> days) {
        LocalDate day = from;
        while (!days.contains(day.getDayOfWeek())) {
            day = day.plusDays(1);
        }
        return day;
    }

    /**
     * The step after a session: one back when pain rose during it or in the 24 h after, the same again while nobody was
     * asked, otherwise the next. Back from the first stays at the first; after the last stays at the last.
     */
    public int after(int step, Truth painRose) {
        return switch (painRose) {
            case TRUE -> Math.max(1, step - 1);
            case UNKNOWN -> step;
            case FALSE -> Math.min(steps.size(), step + 1);
        };
    }
}
