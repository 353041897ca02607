package org.gerdy.rules.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.LoggedRun;
import org.gerdy.engine.plan.PainMonitoring;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.plan.RunProtocol;
import org.gerdy.engine.plan.SupportedSchedule;

/** Whatever the start, the days and the log, a schedule keeps its own limits and ends. */
class SchedulePropertiesTest {
    private static final LocalDate DAY = LocalDate.of(2026, 9, 14);
    private static final Plan.Active PLAN = Shipped.active(Shipped.returning());
    private static final RunProtocol PROTOCOL = Shipped.SCHEDULES.protocol();
    private static final ReturnSchedule SCHEDULE = new ReturnSchedule(
            PROTOCOL,
            new PainMonitoring(
                    Shipped.SCHEDULES.bands(),
                    PLAN.clearance(ReturnSchedule.OPENED_BY).orElseThrow()));

    @Provide
    Arbitrary<Set<DayOfWeek>> days() {
        return Arbitraries.of(DayOfWeek.class).set();
    }

    @Provide
    Arbitrary<List<LoggedRun>> logs() {
        return Combinators.combine(
                        Arbitraries.integers().between(-45, 60),
                        Arbitraries.longs().between(0, 12_000),
                        Arbitraries.doubles().between(0, 10).optional(),
                        Arbitraries.of(Truth.class),
                        Arbitraries.of(Truth.class),
                        Arbitraries.of(Truth.class))
                .as((day, metres, pain, morning, swollen, rising) -> new LoggedRun(
                        DAY.plusDays(day),
                        metres,
                        pain.map(OptionalDouble::of).orElse(OptionalDouble.empty()),
                        morning,
                        swollen,
                        rising))
                .list()
                .ofMaxSize(12);
    }

    @Property(tries = 1500)
    void noPlannedRunIsLongerThanTheCapAndTheScheduleEnds(
            @ForAll @IntRange(min = 1, max = 6) int start,
            @ForAll("days") Set<DayOfWeek> days,
            @ForAll @LongRange(min = 1, max = 50_000) long goal,
            @ForAll("logs") List<LoggedRun> log) {
        LocalDate today =
                log.stream().map(LoggedRun::date).max(LocalDate::compareTo).orElse(DAY);
        ReturnSchedule.Schedule schedule =
                SCHEDULE.plan(new ReturnSchedule.Request(DAY, today, start, days, goal, log));
        List<ReturnSchedule.Session> sessions = schedule.sessions();
        for (int i = 0; i < sessions.size(); i++) {
            ReturnSchedule.Session session = sessions.get(i);
            long longest = PROTOCOL.steps().get(0).metres();
            LocalDate from = session.date().minusDays(30);
            for (LoggedRun run : log) {
                if (run.date().isBefore(session.date()) && !run.date().isBefore(from)) {
                    longest = Math.max(longest, run.metres() * 110 / 100);
                }
            }
            for (ReturnSchedule.Session other : sessions.subList(0, i)) {
                if (!other.date().isBefore(from)) {
                    longest = Math.max(longest, other.metres() * 110 / 100);
                }
            }
            assertThat(session.metres())
                    .isPositive()
                    .isLessThanOrEqualTo(longest)
                    .isLessThanOrEqualTo(goal);
            assertThat(days).contains(session.date().getDayOfWeek());
            if (i > 0) {
                assertThat(ChronoUnit.DAYS.between(sessions.get(i - 1).date(), session.date()))
                        .isGreaterThanOrEqualTo(2);
            }
        }
        if (!sessions.isEmpty()) {
            assertThat(ChronoUnit.DAYS.between(
                            sessions.get(0).date(),
                            sessions.get(sessions.size() - 1).date()))
                    .isLessThan(PROTOCOL.horizonDays());
        }
        if (schedule.ending() == ReturnSchedule.Ending.GOAL && !sessions.isEmpty()) {
            assertThat(sessions.get(sessions.size() - 1).metres()).isEqualTo(goal);
        }
    }

    @Property(tries = 300)
    void theOrderOfTheLogChangesNothing(@ForAll("days") Set<DayOfWeek> days, @ForAll("logs") List<LoggedRun> log) {
        List<LoggedRun> distinct = new ArrayList<>();
        log.stream()
                .filter(run -> distinct.stream().noneMatch(other -> other.date().equals(run.date())))
                .forEach(distinct::add);
        List<LoggedRun> reversed = new ArrayList<>(distinct);
        java.util.Collections.reverse(reversed);
        LocalDate today = DAY.plusDays(61);
        assertThat(SCHEDULE.plan(new ReturnSchedule.Request(DAY, today, 1, days, 5000, reversed)))
                .isEqualTo(SCHEDULE.plan(new ReturnSchedule.Request(DAY, today, 1, days, 5000, distinct)));
    }

    @Property(tries = 500)
    void aWorseAnswerNeverBringsALongerNextRun(
            @ForAll("logs") List<LoggedRun> log, @ForAll @IntRange(min = 1, max = 6) int start) {
        List<LoggedRun> base = log.stream()
                .filter(run -> run.date().isBefore(DAY.plusDays(30)))
                .toList();
        LocalDate day = DAY.plusDays(31);
        List<LoggedRun> good = new ArrayList<>(base);
        good.add(new LoggedRun(day, 2000, OptionalDouble.of(1), Truth.TRUE, Truth.FALSE, Truth.FALSE));
        List<LoggedRun> sore = new ArrayList<>(base);
        sore.add(new LoggedRun(day, 2000, OptionalDouble.of(8), Truth.FALSE, Truth.FALSE, Truth.FALSE));
        assertThat(next(sore, start)).isLessThanOrEqualTo(next(good, start));
    }

    private static long next(List<LoggedRun> log, int start) {
        return SCHEDULE
                .plan(new ReturnSchedule.Request(DAY, DAY.plusDays(31), start, Set.of(DayOfWeek.values()), 20_000, log))
                .sessions()
                .stream()
                .findFirst()
                .map(ReturnSchedule.Session::metres)
                .orElse(0L);
    }

    @Property(tries = 300)
    void supportedSessionsRestADayKeepTheWeekAndEnd(
            @ForAll @IntRange(min = 1, max = 6) int start, @ForAll("days") Set<DayOfWeek> days) {
        SupportedSchedule schedule = new SupportedSchedule(
                Shipped.SCHEDULES.supportSteps(),
                Shipped.SCHEDULES.supportRestDays(),
                PLAN.clearance(SupportedSchedule.OPENED_BY).orElseThrow());
        List<SupportedSchedule.Session> sessions = schedule.plan(DAY, start, days);
        assertThat(sessions.isEmpty()).isEqualTo(days.isEmpty());
        for (int i = 1; i < sessions.size(); i++) {
            SupportedSchedule.Session before = sessions.get(i - 1);
            SupportedSchedule.Session session = sessions.get(i);
            assertThat(ChronoUnit.DAYS.between(before.date(), session.date())).isGreaterThanOrEqualTo(2);
            assertThat(session.step().support().takesOffMoreThan(before.step().support()))
                    .isFalse();
        }
        for (var step : Shipped.SCHEDULES.supportSteps().subList(days.isEmpty() ? 6 : start - 1, 6)) {
            long done = sessions.stream()
                    .filter(session -> session.step().equals(step))
                    .count();
            assertThat((double) done)
                    .isBetween(step.sessions().low(), step.sessions().high());
        }
    }
}
