package org.gerdy.rules.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalDouble;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.Loading;
import org.gerdy.engine.plan.LoggedRun;
import org.gerdy.engine.plan.PainMonitoring;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.plan.RunStep;
import org.gerdy.engine.plan.SupportStep;
import org.gerdy.engine.plan.SupportedSchedule;
import org.gerdy.engine.plan.WeightSupport;
import org.junit.jupiter.api.Test;

class ScheduleTest {
    private static final LocalDate DAY = LocalDate.of(2026, 9, 14);
    private static final Plan.Active PLAN = Shipped.active(Shipped.returning());
    private static final PainMonitoring MONITORING = new PainMonitoring(
            Shipped.SCHEDULES.bands(), PLAN.clearance(ReturnSchedule.OPENED_BY).orElseThrow());
    private static final ReturnSchedule SCHEDULE = new ReturnSchedule(Shipped.SCHEDULES.protocol(), MONITORING);

    private static LoggedRun run(LocalDate date, long metres, double pain) {
        return new LoggedRun(date, metres, OptionalDouble.of(pain), Truth.TRUE, Truth.FALSE, Truth.FALSE);
    }

    private static ReturnSchedule.Schedule plan(LocalDate today, long goal, LoggedRun... log) {
        return SCHEDULE.plan(
                new ReturnSchedule.Request(DAY, today, 1, EnumSet.allOf(DayOfWeek.class), goal, List.of(log)));
    }

    @Test
    void theWalkRunTableIsThePublishedOne() {
        // Overuse knee injury, six phases: military return-to-run guideline 2023, Table 1.
        List<RunStep> steps = Shipped.SCHEDULES.protocol().steps();
        assertThat(steps).extracting(RunStep::walkMinutes).containsExactly(2.0, 2.0, 2.0, 2.0, 1.0, 0.0);
        assertThat(steps.stream().map(step -> step.runMinutes().orElse(-1)))
                .containsExactly(3.0, 3.0, 4.0, 4.0, 4.0, -1.0);
        assertThat(steps.stream().map(step -> Math.round(step.metres() / 10.0) / 100.0))
                .containsExactly(1.61, 2.41, 2.41, 3.22, 3.22, 3.22);
        assertThat(steps.stream().map(step -> step.effort().orElse(-1))).containsExactly(3.0, 3.0, 4.0, 4.0, 5.0, 5.0);
    }

    @Test
    void whereTheCapNeverBindsTheTableTakesTwelveRunsIn23Days() {
        // Derived from the same Table 1: twice each phase on alternate days, day 1 to day 23.
        ReturnSchedule.Schedule schedule = plan(DAY, 3219, run(DAY.minusDays(3), 5000, 4));
        assertThat(schedule.sessions()).hasSize(12).noneMatch(ReturnSchedule.Session::shortened);
        assertThat(ChronoUnit.DAYS.between(DAY, schedule.sessions().get(11).date()) + 1)
                .isEqualTo(23);
        assertThat(schedule.ending()).isEqualTo(ReturnSchedule.Ending.GOAL);
    }

    @Test
    void afterALayOffTheFirstRunIsTheTablesAndTheCapRulesTheRest() {
        ReturnSchedule.Schedule schedule = plan(DAY, 3219);
        assertThat(schedule.sessions().get(0).metres()).isEqualTo(1609);
        assertThat(schedule.sessions().get(2).metres()).isEqualTo(1760);
        assertThat(schedule.sessions().get(2).shortened()).isTrue();
    }

    @Test
    void theCapIs110PercentOfTheLongestRunOf30Days() {
        // Frandsen 2025: reference category up to 10 % above the longest run of the last 30 days.
        assertThat(Shipped.SCHEDULES.protocol().cap().percent()).isEqualTo(110);
        assertThat(Shipped.SCHEDULES.protocol().cap().windowDays()).isEqualTo(30);
    }

    @Test
    void goodRunsMoveOnAndASoreOneGoesBackWithMoreRest() {
        ReturnSchedule.Schedule good = plan(DAY.plusDays(3), 5000, run(DAY, 1609, 1), run(DAY.plusDays(2), 1609, 2));
        assertThat(good.sessions().get(0).step().phase()).isEqualTo(2);
        ReturnSchedule.Schedule sore = plan(
                DAY.plusDays(5), 5000, run(DAY, 1609, 1), run(DAY.plusDays(2), 1609, 1), run(DAY.plusDays(4), 1700, 6));
        assertThat(sore.judged())
                .last()
                .extracting(ReturnSchedule.Judged::loading)
                .isEqualTo(Loading.BACK);
        assertThat(sore.sessions().get(0).step().phase()).isEqualTo(1);
        assertThat(sore.sessions().get(0).date()).isEqualTo(DAY.plusDays(7));
    }

    @Test
    void twoStepsBackInARowStopTheScheduleForAReview() {
        ReturnSchedule.Schedule schedule =
                plan(DAY.plusDays(9), 5000, run(DAY, 1609, 6), run(DAY.plusDays(4), 1609, 7));
        assertThat(schedule.sessions()).isEmpty();
        assertThat(schedule.ending()).isEqualTo(ReturnSchedule.Ending.REVIEW_FIRST);
    }

    @Test
    void threeOutOfTenHoldsWhereTheTwoDescriptionsOfTheSchemeDiffer() {
        // Thomee 1997 and Silbernagel 2007, recalled: 0 to 2 safe, above 2 to 5 acceptable, above 5 excessive.
        assertThat(MONITORING.band(2).loading()).isEqualTo(Loading.PROGRESS);
        assertThat(MONITORING.band(3).loading()).isEqualTo(Loading.HOLD);
        assertThat(MONITORING.band(5).loading()).isEqualTo(Loading.HOLD);
        assertThat(MONITORING.band(5.5).loading()).isEqualTo(Loading.BACK);
        assertThat(MONITORING.band(0).loading()).isEqualTo(Loading.PROGRESS);
    }

    @Test
    void worseNextMorningGoesBackHoweverLittleItHurt() {
        LoggedRun run = new LoggedRun(DAY, 1609, OptionalDouble.of(1), Truth.FALSE, Truth.FALSE, Truth.FALSE);
        assertThat(MONITORING.judge(run, List.of())).isEqualTo(Loading.BACK);
    }

    @Test
    void theSupportedStepsAreThePublishedSampleInPercentOfWeight() {
        // Vincent 2022, Table 1B.
        assertThat(Shipped.SCHEDULES.supportSteps())
                .extracting(step -> step.support().percentOfWeight())
                .containsExactly(50.0, 60.0, 70.0, 80.0, 90.0, 100.0);
        assertThat(Shipped.SCHEDULES.supportSteps())
                .extracting(step -> step.support().percentTakenOff())
                .containsExactly(50.0, 40.0, 30.0, 20.0, 10.0, 0.0);
        SupportStep first = Shipped.SCHEDULES.supportSteps().get(0);
        assertThat(first.boutMinutes().low()).isEqualTo(1);
        assertThat(first.bouts().low()).isEqualTo(4);
        assertThat(first.bouts().high()).isEqualTo(5);
        assertThat(first.speedKmh().orElseThrow().low()).isCloseTo(8.05, within(0.01));
    }

    @Test
    void aSupportedStepTakesAWeekAndNeverTwoDaysInARow() {
        SupportedSchedule schedule = new SupportedSchedule(
                Shipped.SCHEDULES.supportSteps(),
                Shipped.SCHEDULES.supportRestDays(),
                PLAN.clearance(SupportedSchedule.OPENED_BY).orElseThrow());
        List<SupportedSchedule.Session> sessions = schedule.plan(DAY, 1, EnumSet.allOf(DayOfWeek.class));
        for (int i = 1; i < sessions.size(); i++) {
            assertThat(ChronoUnit.DAYS.between(
                            sessions.get(i - 1).date(), sessions.get(i).date()))
                    .isGreaterThanOrEqualTo(2);
        }
        // Vincent 2022, Table 1B: 2 sessions in week 1, up to 3 in weeks 2 to 6.
        assertThat(sessions).hasSize(2 + 5 * 3);
        assertThat(schedule.after(3, Truth.TRUE)).isEqualTo(2);
        assertThat(schedule.after(3, Truth.UNKNOWN)).isEqualTo(3);
        assertThat(schedule.after(3, Truth.FALSE)).isEqualTo(4);
    }

    @Test
    void theDisplayedSupportIsReadAtMeasuredPointsAndBetweenThem() {
        // McNeill 2015 (abstract): set 100 -> 93.15, 30 -> 35.75, 20 -> 27.67; 70 to 90 not different.
        assertThat(delivered(100)).isCloseTo(93.15, within(1e-9));
        assertThat(delivered(30)).isCloseTo(35.75, within(1e-9));
        assertThat(delivered(20)).isCloseTo(27.67, within(1e-9));
        assertThat(delivered(80)).isCloseTo(80, within(1e-9));
        // Between the points: our own lines, worked out by hand.
        assertThat(delivered(95)).isCloseTo(91.575, within(1e-9));
        assertThat(delivered(25)).isCloseTo(31.71, within(1e-9));
    }

    private static double delivered(double weight) {
        return Shipped.SCHEDULES
                .supportAccuracy()
                .delivered(WeightSupport.carrying(weight))
                .orElseThrow()
                .percentOfWeight();
    }

    @Test
    void upTo80PercentIsTakenOffAndCommonly30To50() {
        // Common practice, no source.
        assertThat(Shipped.SCHEDULES.mostTakenOff()).isEqualTo(WeightSupport.carrying(20));
        assertThat(Shipped.SCHEDULES.usual()).containsExactly(WeightSupport.carrying(70), WeightSupport.carrying(50));
    }

    @Test
    void fivePercentMoreThan168StepsIs176() {
        // Allen 2014: one case, 168 to 176 steps a minute.
        assertThat(Shipped.SCHEDULES.stepRate().target(168)).isEqualTo(176);
        // Heiderscheit 2011 tested up to 10 % more.
        assertThat(Shipped.SCHEDULES.stepRate().most(168)).isEqualTo(184);
    }
}
