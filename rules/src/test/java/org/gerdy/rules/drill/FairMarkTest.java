package org.gerdy.rules.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.gerdy.engine.drill.Commitment;
import org.gerdy.engine.drill.Difficulty;
import org.gerdy.engine.drill.DrillMaster;
import org.gerdy.engine.drill.DrillPatient;
import org.gerdy.engine.drill.DrillScore;
import org.gerdy.engine.drill.DrillScore.Kind;
import org.gerdy.engine.drill.Inquiry;
import org.gerdy.engine.drill.Marker;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

class FairMarkTest {
    private static final DrillPatient HOT_JOINT =
            DrillSchool.MAKER.make(DrillSchool.MAKER.seed("septic-arthritis", Difficulty.TEXTBOOK, 0));
    private static final DrillPatient RUNNER =
            DrillSchool.MAKER.make(DrillSchool.MAKER.seed("iliotibial-band-syndrome", Difficulty.TEXTBOOK, 0));
    private static final DrillMaster.Walk HOT_WALK = DrillSchool.MASTER.walk(HOT_JOINT);
    private static final DrillMaster.Walk RUNNER_WALK = DrillSchool.MASTER.walk(RUNNER);

    private static DrillScore mark(DrillMaster.Walk walk, Inquiry inquiry, Commitment stated) {
        return DrillSchool.MARKER.mark(inquiry, walk, stated).score();
    }

    private static double points(DrillScore score, Kind kind) {
        return score.part(kind).orElseThrow().points();
    }

    private static Commitment with(Commitment stated, Urgency urgency) {
        return new Commitment(urgency, stated.confidences(), stated.factors(), stated.plan(), stated.settles());
    }

    private static Commitment best(DrillMaster.Walk walk) {
        return DrillSchool.MASTER.conclude(
                walk.inquiry().patient(), walk.inquiry().known());
    }

    @Test
    void theOrderOfEqualAnswersChangesNothing() {
        Random random = new Random(5);
        List<String> ids = new ArrayList<>(List.of(
                "iliotibial-band-syndrome",
                "popliteus-tendinopathy",
                "patellofemoral-pain",
                "lateral-meniscal-tear-degenerative"));
        List<String> items = new ArrayList<>(best(RUNNER_WALK).plan());
        double first = Double.NaN;
        for (int i = 0; i < 6; i++) {
            Map<String, Double> confidences = new LinkedHashMap<>();
            ids.forEach(id -> confidences.put(id, 0.25));
            double total = mark(
                            RUNNER_WALK,
                            RUNNER_WALK.inquiry(),
                            new Commitment(
                                    Urgency.MANAGE_HERE, confidences, Set.of(), new LinkedHashSet<>(items), Set.of()))
                    .total();
            first = i == 0 ? total : first;
            assertThat(total).isCloseTo(first, within(1e-9));
            Collections.shuffle(ids, random);
            Collections.shuffle(items, random);
        }
    }

    @Test
    void underTriageCostsMoreThanOverTriageByAsManySteps() {
        Commitment best = best(HOT_WALK);
        assertThat(best.urgency()).isEqualTo(Urgency.EMERGENCY);
        for (Urgency needed : Urgency.values()) {
            for (Urgency stated : Urgency.values()) {
                if (stated.compareTo(needed) < 0) {
                    assertThat(DrillSchool.TABLES.urgency().get(needed).get(stated))
                            .isLessThan(DrillSchool.TABLES.urgency().get(stated).get(needed) + 0.31)
                            .isLessThan(1);
                }
            }
            assertThat(DrillSchool.TABLES.urgency().get(needed).get(needed)).isEqualTo(1);
        }
        assertThat(points(mark(HOT_WALK, HOT_WALK.inquiry(), with(best, Urgency.SAME_DAY)), Kind.SAFETY))
                .isLessThan(10);
        assertThat(points(mark(HOT_WALK, HOT_WALK.inquiry(), with(best, Urgency.MANAGE_HERE)), Kind.SAFETY))
                .isZero();
    }

    @Test
    void aPainfulTestBeforeTheDangerQuestionsCostsSafety() {
        Inquiry inquiry = DrillSchool.MASTER.begin(RUNNER);
        assertThat(inquiry.ask("noble-compression").heldBackBy()).isNotEmpty();
        RUNNER_WALK.inquiry().steps().forEach(step -> inquiry.ask(step.finding()));
        DrillScore early = mark(RUNNER_WALK, inquiry, best(RUNNER_WALK));
        DrillScore late = mark(RUNNER_WALK, RUNNER_WALK.inquiry(), best(RUNNER_WALK));
        assertThat(points(early, Kind.SAFETY)).isLessThan(points(late, Kind.SAFETY));
        assertThat(early.part(Kind.SAFETY).orElseThrow().lines().toString()).contains("noble-compression");
    }

    @Test
    void askingNothingAndGuessingRightIsNotSafe() {
        DrillScore score = mark(RUNNER_WALK, DrillSchool.MASTER.begin(RUNNER), best(RUNNER_WALK));
        assertThat(points(score, Kind.SAFETY)).isLessThan(20);
        assertThat(points(score, Kind.EFFICIENCY)).isZero();
    }

    @Test
    void anExerciseForSomebodyWhoMustGoNowIsWorthNothing() {
        Commitment best = best(HOT_WALK);
        Commitment exercising =
                new Commitment(best.urgency(), best.confidences(), Set.of(), Set.of("other-training"), best.settles());
        assertThat(points(mark(HOT_WALK, HOT_WALK.inquiry(), exercising), Kind.PLAN))
                .isZero();
        assertThat(points(mark(HOT_WALK, HOT_WALK.inquiry(), best), Kind.PLAN)).isEqualTo(8);
    }

    @Test
    void theStatedConfidencesAloneMoveTheDifferentialAndTheSharesThemselvesAreBest() {
        Marker.Marked marked = DrillSchool.MARKER.mark(RUNNER_WALK.inquiry(), RUNNER_WALK, best(RUNNER_WALK));
        Map<String, Double> shares = new LinkedHashMap<>();
        marked.model().assessment().candidates().forEach(one -> shares.put(one.condition(), one.share()));
        Random random = new Random(11);
        double top = points(mark(RUNNER_WALK, RUNNER_WALK.inquiry(), confident(shares)), Kind.DIFFERENTIAL);
        for (int i = 0; i < 200; i++) {
            Map<String, Double> other = new LinkedHashMap<>();
            double sum = 0;
            for (Map.Entry<String, Double> one : shares.entrySet()) {
                double weight = one.getValue() * Math.exp(random.nextGaussian());
                other.put(one.getKey(), weight);
                sum += weight;
            }
            double total = sum;
            other.replaceAll((id, weight) -> weight / total);
            assertThat(points(mark(RUNNER_WALK, RUNNER_WALK.inquiry(), confident(other)), Kind.DIFFERENTIAL))
                    .isLessThanOrEqualTo(top + 1e-9);
        }
    }

    private static Commitment confident(Map<String, Double> confidences) {
        double sum =
                confidences.values().stream().mapToDouble(Double::doubleValue).sum();
        Map<String, Double> safe = new LinkedHashMap<>(confidences);
        safe.replaceAll((id, one) -> one / Math.max(1, sum));
        return new Commitment(Urgency.MANAGE_HERE, safe, Set.of(), Set.of(), Set.of());
    }

    @Test
    void aMissedDangerNamesTheRuleTheRowAndTheFinding() {
        DrillScore score =
                mark(HOT_WALK, DrillSchool.MASTER.begin(HOT_JOINT), with(best(HOT_WALK), Urgency.MANAGE_HERE));
        DrillScore.Line line = score.changing().orElseThrow();
        assertThat(line.rule()).contains("/");
        assertThat(line.text()).contains("You did not ask for it.");
        assertThat(score.underTriaged()).isTrue();
    }
}
