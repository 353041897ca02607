package org.gerdy.rules.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.fact.FlagStanding;
import org.gerdy.engine.fact.PlanChoice;
import org.gerdy.engine.fact.Triage;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.Loading;
import org.gerdy.engine.plan.LoggedRun;
import org.gerdy.engine.plan.PainMonitoring;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.Planner;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.plan.ScheduleTables;
import org.gerdy.engine.plan.Situation;
import org.gerdy.engine.plan.SupportedSchedule;
import org.gerdy.engine.plan.WeightSupport;
import org.gerdy.engine.review.Change;
import org.gerdy.engine.review.CourseRow;
import org.gerdy.engine.review.Verdict;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** One test for each mistake that plans and reviews are known to invite. */
class PlanPitfallsTest {
    /** Every sentence of the plan tables that a reader sees. */
    private static List<String> sentences() {
        return java.util.stream.Stream.of(
                        Shipped.rows(
                                "plan-items.csv", "label", "dose", "progression", "stop", "evidence", "patient_words"),
                        Shipped.rows("not-advised.csv", "label", "why", "instead"),
                        Shipped.rows("interim-advice.csv", "advice", "patient_words"),
                        Shipped.rows("support-effects.csv", "text"),
                        Shipped.rows("course.csv", "text", "action"))
                .flatMap(List::stream)
                .flatMap(row -> row.values().stream())
                .toList();
    }

    @Test
    void percentOfWeightAndPercentTakenOffAreNeverTheSameNumberByName() {
        WeightSupport most = WeightSupport.takingOff(80);
        assertThat(most.percentOfWeight()).isEqualTo(20);
        assertThat(most.percentTakenOff()).isEqualTo(80);
        assertThat(most.words()).isEqualTo("80 % of body weight taken off, 20 % still carried");
        // Vincent 2022: "more than 95 %" to leave the device is body weight, so less than 5 % taken off.
        assertThat(WeightSupport.carrying(95).percentTakenOff()).isEqualTo(5);
    }

    @Test
    void supportedStepsWithWeightAndSupportMixedUpAreRefused() {
        var steps = Shipped.SCHEDULES.supportSteps();
        List<org.gerdy.engine.plan.SupportStep> backwards = List.of(steps.get(3), steps.get(0));
        var clearance = Shipped.active(Shipped.returning())
                .clearance(SupportedSchedule.OPENED_BY)
                .orElseThrow();
        assertThatThrownBy(() -> new SupportedSchedule(backwards, 1, clearance))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("mixed up");
    }

    @ParameterizedTest
    @ValueSource(strings = {"bone-stress-injury", "high-risk-bone-stress", "atypical-femoral-fracture"})
    void aPossibleBoneStressInjuryNeverReachesThePainScheme(String flag) {
        for (String state : List.of("raised", "open")) {
            List<FlagStanding> flags = Shipped.KNOWLEDGE.rowsByFlag().keySet().stream()
                    .map(id -> new FlagStanding(id, id.equals(flag) ? state : "cleared"))
                    .toList();
            Plan plan = new Planner(Shipped.PLAN)
                    .plan(
                            new Situation(
                                    Shipped.observations(Shipped.returning()),
                                    Triage.of(java.util.Optional.of(Urgency.ROUTINE_REFERRAL), true),
                                    flags,
                                    java.util.Set.of("iliotibial-band-syndrome")),
                            "returning",
                            List.of(new PlanChoice("graded-return", "r"), new PlanChoice("supported-running", "r")));
            assertThat(plan).isInstanceOfSatisfying(Plan.Active.class, active -> {
                assertThat(active.clearance(ReturnSchedule.OPENED_BY)).isEmpty();
                assertThat(active.clearance(SupportedSchedule.OPENED_BY)).isEmpty();
            });
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "bsi-distal-femur",
                "bsi-proximal-tibia",
                "bsi-fibula",
                "bsi-femoral-neck",
                "subchondral-insufficiency-fracture"
            })
    void aBoneStressInjuryThatIsStillPlausibleNeverReachesThePainScheme(String condition) {
        assertThat(Shipped.PLAN.item("graded-return").limits().conditions()).contains(condition);
        assertThat(Shipped.PLAN.item("supported-running").limits().conditions()).contains(condition);
    }

    @Test
    void aTenderBoneInTheFileMeansNoPainScheme() {
        Map<String, Recorded> answers = Shipped.returning();
        answers.putAll(Shipped.answers("focal-bony-tenderness present"));
        assertThat(Shipped.plan(answers)).isInstanceOf(Plan.Interim.class);
    }

    @Test
    void theLowerLimbScoreNearItsCeilingIsCalledUntestableInARunner() {
        // LEFS norm 2017: healthy median 77 of 80. Binkley 1999: 9 points are needed.
        Change change = ReviewTest.change("lefs", 74, 80);
        assertThat(change.untestable()).isTrue();
        assertThat(change.verdict()).isEqualTo(Verdict.NO_SURE_CHANGE);
        assertThat(change.headroom()).hasValue(6);
        assertThat(ReviewTest.change("lefs", 77, 80).untestable()).isTrue();
    }

    @Test
    void halfTheWeightIsNeverShownAsHalfTheImpact() {
        // Moran 2017: peak tibial acceleration unchanged from 95 to 60 % of weight.
        assertThat(Shipped.SCHEDULES.effects())
                .filteredOn(effect -> effect.id().equals("shin-shock"))
                .singleElement()
                .extracting(ScheduleTables.SupportEffect::changes)
                .isEqualTo("no-change");
        assertThat(Shipped.PLAN.item("supported-running").evidence().text())
                .contains("Half the weight is not half the impact");
        assertThat(sentences())
                .filteredOn(text -> text.toLowerCase(Locale.ROOT).contains("half the impact"))
                .isNotEmpty()
                .allMatch(text -> text.contains("not half the impact") || text.startsWith("Reading half the weight"));
    }

    @Test
    void noWeeklyPercentageAndNoRatioOfWeeksIsAGate() {
        assertThat(Shipped.rows("plan-settings.csv", "name"))
                .noneMatch(row -> row.getOrDefault("name", "").matches(".*(week|ratio|acute|chronic).*"));
        assertThat(Shipped.PLAN.notAdvised())
                .anyMatch(row ->
                        row.id().equals("weekly-rule-as-gate") && row.sources().contains("frandsen2025"));
    }

    @Test
    void aThresholdFromAnotherPopulationIsNotUsed() {
        // Ingelsrud 2018 (2.5 after ligament surgery), Mostafaee 2021 (15 in arthritis): none for a runner's band.
        assertThat(ReviewTest.change("koos-pain", 60, 70, "lateral-compartment-oa")
                        .threshold()
                        .better())
                .hasValue(15);
        Change runner = ReviewTest.change("koos-pain", 60, 90, "iliotibial-band-syndrome");
        assertThat(runner.threshold().better()).isEmpty();
        assertThat(runner.verdict()).isEqualTo(Verdict.NO_SURE_CHANGE);
        assertThat(runner.remark()).startsWith("No threshold is known");
    }

    @Test
    void everyThresholdBorrowedForTheBandSaysSo() {
        assertThat(List.of("pain-worst-run", "psfs", "uwri", "lefs", "akps"))
                .allSatisfy(instrument -> assertThat(Shipped.REVIEW
                                .threshold(instrument, List.of("iliotibial-band-syndrome"))
                                .borrowed())
                        .isNotEmpty());
    }

    @Test
    void theShortFormThatRunsTheOtherWayKeepsItsDirectionAndHasNoThreshold() {
        assertThat(Shipped.REVIEW.instruments().get("koos-ps").higherIsBetter()).isFalse();
        assertThat(Shipped.REVIEW.instruments().get("koos-pain").higherIsBetter())
                .isTrue();
        assertThat(Shipped.REVIEW.threshold("koos-ps", List.of()).better()).isEmpty();
    }

    @Test
    void fortyFourPercentAndNinetyTwoPercentAreTwoSeriesAndNoCurve() {
        List<CourseRow.Expected> expected = Shipped.REVIEW.course().stream()
                .filter(CourseRow.Expected.class::isInstance)
                .map(CourseRow.Expected.class::cast)
                .toList();
        CourseRow.Expected early = expected.stream()
                .filter(row -> row.id().equals("course-44"))
                .findFirst()
                .orElseThrow();
        CourseRow.Expected late = expected.stream()
                .filter(row -> row.id().equals("course-92"))
                .findFirst()
                .orElseThrow();
        assertThat(early.series()).isNotEqualTo(late.series());
        assertThat(late.text()).contains("make no curve");
        assertThat(sentences()).noneMatch(text -> text.contains("44 %") && text.contains("91.7 %"));
    }

    @Test
    void muscleActivityIsNeverReadAsBenefit() {
        assertThat(sentences()).noneMatch(text -> Pattern.compile("(?i)mvic|% of maximum|emg")
                .matcher(text)
                .find());
        assertThat(Shipped.PLAN.items())
                .noneMatch(item -> item.evidence().strength().contains("emg"));
        assertThat(Shipped.PLAN.item("clam").evidence().text()).contains("show no benefit by themselves");
    }

    @Test
    void strengtheningIsNotSoldAsBetterOrAsPrevention() {
        assertThat(sentences())
                .noneMatch(text -> Pattern.compile("(?i)\\b(proven|most effective|prevents|cures?|is safe|you have)\\b")
                        .matcher(text)
                        .find());
        // McKay 2020: no difference between groups. Toresdahl 2020: 7.1 and 7.3 %.
        assertThat(Shipped.PLAN.item("band-walk").evidence().text()).contains("no difference from stretching");
        assertThat(Shipped.PLAN.item("heavy-slow-hip").evidence().text()).contains("prevention is not claimed");
    }

    @Test
    void aBlankAnswerNeverLetsARunnerProgress() {
        PainMonitoring monitoring = new PainMonitoring(
                Shipped.SCHEDULES.bands(),
                Shipped.active(Shipped.returning())
                        .clearance(ReturnSchedule.OPENED_BY)
                        .orElseThrow());
        LocalDate day = LocalDate.of(2026, 9, 14);
        assertThat(List.of(
                        new LoggedRun(day, 1609, OptionalDouble.empty(), Truth.TRUE, Truth.FALSE, Truth.FALSE),
                        new LoggedRun(day, 1609, OptionalDouble.of(0), Truth.UNKNOWN, Truth.FALSE, Truth.FALSE),
                        new LoggedRun(day, 1609, OptionalDouble.of(0), Truth.TRUE, Truth.UNKNOWN, Truth.FALSE)))
                .allMatch(run -> monitoring.judge(run, List.of()) == Loading.HOLD);
    }

    @Test
    void nothingIsReadOutsideTheMeasuredPointsOfTheDevice() {
        assertThat(Shipped.SCHEDULES.supportAccuracy().delivered(WeightSupport.carrying(19)))
                .isEmpty();
    }

    @Test
    void whereCustomOutrunsTheEvidenceThePlanSaysSo() {
        assertThat(Shipped.PLAN.items())
                .filteredOn(item -> item.evidence().basis().word().equals("common-practice"))
                .isNotEmpty()
                .allMatch(item -> Pattern.compile(
                                "Custom goes further|No trial|no trial|Repeated in reviews|above what running")
                        .matcher(item.evidence().text())
                        .find());
    }
}
