package org.gerdy.rules.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.DoubleSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.gerdy.engine.drill.Commitment;
import org.gerdy.engine.drill.DrillMaster;
import org.gerdy.engine.drill.DrillPatient;
import org.gerdy.engine.drill.DrillScore;
import org.gerdy.engine.drill.Inquiry;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Four players over the pool: one who knows the best order, one who always says the same, one at random, one who asks all. */
class DrillPoolTest {
    private static final String BAND = "iliotibial-band-syndrome";
    private static final Map<String, Map<String, DrillScore>> SCORES = new LinkedHashMap<>();

    @BeforeAll
    static void play() {
        for (DrillPatient patient : DrillSchool.pool()) {
            DrillMaster.Walk walk = DrillSchool.MASTER.walk(patient);
            score(
                    "oracle",
                    patient,
                    walk.inquiry(),
                    walk,
                    DrillSchool.MASTER.conclude(patient, walk.inquiry().known()));
            score("band", patient, DrillSchool.MASTER.begin(patient), walk, alwaysTheBand());
            random(patient, walk);
            Inquiry all = everything(patient, walk);
            score("asks all", patient, all, walk, DrillSchool.MASTER.conclude(patient, all.known()));
        }
        print();
    }

    private static void score(
            String player, DrillPatient patient, Inquiry inquiry, DrillMaster.Walk walk, Commitment stated) {
        SCORES.computeIfAbsent(player, ignored -> new TreeMap<>())
                .put(
                        patient.id() + " " + patient.causes() + " " + patient.difficulty(),
                        DrillSchool.MARKER.mark(inquiry, walk, stated).score());
    }

    private static Commitment alwaysTheBand() {
        return new Commitment(Urgency.MANAGE_HERE, Map.of(BAND, 1.0), Set.of(), Set.of("running-below-pain"), Set.of());
    }

    private static void random(DrillPatient patient, DrillMaster.Walk walk) {
        Random random = new Random(patient.id().hashCode());
        Inquiry inquiry = DrillSchool.MASTER.begin(patient);
        List<String> questions = shuffled(
                DrillSchool.KNOWLEDGE.catalogue().findings().stream()
                        .map(FindingDefinition::id)
                        .toList(),
                random);
        questions.subList(0, random.nextInt(40)).forEach(inquiry::ask);
        Map<String, Double> confidences = new LinkedHashMap<>();
        double left = 1;
        for (String condition : shuffled(
                        List.copyOf(DrillSchool.KNOWLEDGE.conditions().keySet()), random)
                .subList(0, 5)) {
            double part = left * random.nextDouble();
            confidences.put(condition, part);
            left -= part;
        }
        List<String> items = shuffled(
                DrillSchool.PLANS.items().stream().map(item -> item.id()).toList(), random);
        List<String> factors = shuffled(
                DrillSchool.FACTORS.factors().stream()
                        .map(factor -> factor.id())
                        .toList(),
                random);
        score(
                "random",
                patient,
                inquiry,
                walk,
                new Commitment(
                        Urgency.values()[random.nextInt(Urgency.values().length)],
                        confidences,
                        Set.copyOf(factors.subList(0, random.nextInt(4))),
                        Set.copyOf(items.subList(0, random.nextInt(4))),
                        Set.of(questions.get(50))));
    }

    private static List<String> shuffled(List<String> ids, Random random) {
        List<String> shuffled = new ArrayList<>(ids);
        Collections.shuffle(shuffled, random);
        return shuffled;
    }

    /** The danger questions in their order, then everything that hurts nobody, then painful tests nothing holds back. */
    private static Inquiry everything(DrillPatient patient, DrillMaster.Walk walk) {
        Inquiry inquiry = DrillSchool.MASTER.begin(patient);
        walk.inquiry().steps().forEach(step -> inquiry.ask(step.finding()));
        for (boolean painful : new boolean[] {false, true}) {
            for (FindingDefinition finding : DrillSchool.KNOWLEDGE.catalogue().findings()) {
                if (finding.provocative() == painful
                        && inquiry.heldBack(finding.id()).isEmpty()) {
                    inquiry.ask(finding.id());
                }
            }
        }
        return inquiry;
    }

    private static void print() {
        System.out.println("drill pool: " + SCORES.get("oracle").size() + " cases, "
                + SCORES.get("oracle").values().stream()
                        .filter(DrillScore::dangerous)
                        .count()
                + " dangerous");
        SCORES.forEach((player, scores) -> {
            DoubleSummaryStatistics total =
                    scores.values().stream().collect(Collectors.summarizingDouble(DrillScore::total));
            double safety = scores.values().stream()
                    .mapToDouble(score ->
                            score.part(DrillScore.Kind.SAFETY).orElseThrow().points())
                    .average()
                    .orElse(0);
            System.out.println(String.format(
                    Locale.ROOT,
                    "  %-9s mean %5.1f  least %5.1f  most %5.1f  safety %4.1f of 40",
                    player,
                    total.getAverage(),
                    total.getMin(),
                    total.getMax(),
                    safety));
        });
    }

    private static double mean(String player) {
        return SCORES.get(player).values().stream()
                .mapToDouble(DrillScore::total)
                .average()
                .orElseThrow();
    }

    @Test
    void theBestOrderWithTheRulesOwnConclusionsScoresNinetyFiveOnEveryCase() {
        SCORES.get("oracle")
                .forEach((patient, score) ->
                        assertThat(score.total()).as(patient).isGreaterThanOrEqualTo(95));
    }

    @Test
    void alwaysTheBandAndManageHereScoresUnderThirty() {
        assertThat(mean("band")).isLessThan(30);
    }

    @Test
    void alwaysTheBandAndManageHereHasNoSafetyOnAnyDangerousCase() {
        assertThat(SCORES.get("band").values().stream()
                        .filter(DrillScore::dangerous)
                        .toList())
                .isNotEmpty()
                .allSatisfy(score -> assertThat(
                                score.part(DrillScore.Kind.SAFETY).orElseThrow().points())
                        .isZero());
    }

    @Test
    void atRandomScoresUnderTwenty() {
        assertThat(mean("random")).isLessThan(20);
    }

    @Test
    void askingEverythingIsSafeButMarkedDown() {
        SCORES.get("asks all").forEach((patient, score) -> {
            assertThat(score.part(DrillScore.Kind.SAFETY).orElseThrow().points())
                    .as(patient)
                    .isEqualTo(40);
            assertThat(score.total())
                    .as(patient)
                    .isLessThan(SCORES.get("oracle").get(patient).total() - 5);
        });
    }

    @Test
    void thePoolHoldsDangerousAndHarmlessCases() {
        assertThat(SCORES.get("oracle").values())
                .anyMatch(DrillScore::dangerous)
                .anyMatch(score -> !score.dangerous());
    }
}
