package org.gerdy.rules.factors;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.measure.Trials;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.Urgency;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;

/** What is measured is known as the finding of the measure. */
class MeasuredFindingsTest {
    private static final Gerdy GERDY = LateralKnee.gerdy();
    private static final KnowledgeBase SHIPPED = GERDY.knowledge();
    private static final List<MeasureDefinition> BRIDGED = SHIPPED.factors().measures().values().stream()
            .filter(measure -> measure.finding().isPresent())
            .toList();
    private static final List<RuleCard> RAISING = SHIPPED.rules().values().stream()
            .filter(rule -> rule.logic().isPresent() && rule.text().contains("RedFlag.raise("))
            .toList();

    private static Observations known(String block) throws MendableException {
        String text = "gerdy: 1\ncase: measured\nvisits:\n  - date: 2026-03-02\n    side: left\n" + block.indent(4);
        CaseFile file = GERDY.read("case.yaml", new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
        return Observations.of(SHIPPED.terms(), file, file.latest());
    }

    private static double on(Observations known, String finding, Side side) {
        return known.recorded(finding)
                .flatMap(recorded -> recorded.on(side))
                .map(answer -> ((Answer.Quantity) answer).value())
                .orElseThrow();
    }

    @Test
    void theNumberAMeasureMakesOfItsTrialsAnswersItsFindingSideBySideInTheFindingsUnit() throws MendableException {
        Observations known = known("""
                measures:
                  hip-abduction-strength: {left: [11.6 kgf, 11.9 kgf, 11.8 kgf], right: [30 lbf]}
                  leg-length-blocks: {left: [12 mm, 14 mm], right: 0 mm}
                  single-leg-squat-quality: {left: poor}
                  step-rate: {speed: 3 m/s, trials: 164}
                """);
        // Best of the trials, 1 kgf = 9.80665 N (CGPM 1901), 1 lbf = 0.45359237 kgf (1959): 116.699 N and 133.447 N
        assertThat(on(known, "hip-abduction-strength", Side.LEFT)).isCloseTo(116.699, within(5e-4));
        assertThat(on(known, "hip-abduction-strength", Side.RIGHT)).isCloseTo(133.447, within(5e-4));
        assertThat(on(known, "leg-length-blocks", Side.LEFT)).isEqualTo(13);
        assertThat(on(known, "leg-length-blocks", Side.RIGHT)).isZero();
        assertThat(known.shown("single-leg-squat-quality")).isEqualTo("poor left");
        assertThat(known.shown("step-rate")).isEqualTo("164 steps/min");
    }

    @Test
    void anIndexWithAnItemMissingAnswersNothing() throws MendableException {
        Observations known = known("""
                measures:
                  fpi-6: {left: [1, 0, 2, 1, 1, 1], right: [1, 1, "-", 1, 1, 0]}
                """);
        assertThat(known.shown("fpi-6")).isEqualTo("6 points left");
    }

    @Test
    void aRecordedFindingStaysAndTheMeasureFillsInTheOtherSide() throws MendableException {
        Observations known = known("""
                findings:
                  lunge-distance: {left: 9 cm}
                measures:
                  lunge-distance: {left: [9.5 cm, 9.8 cm], right: [12.4 cm, 12.5 cm]}
                """);
        assertThat(known.shown("lunge-distance")).isEqualTo("9 cm left, 12.5 cm right");
    }

    @Test
    void whatIsMeasuredIsNotAskedAgainAndSetsTheStepRateTarget() throws Exception {
        CaseFile review = GERDY.read(
                Path.of(System.getProperty("gerdy.root"), "cases", "demo").resolve("review.yaml"));
        Visit last = review.latest();
        Measured rate = Measured.whole("step-rate", Map.of(), Readings.of(160));
        CaseFile measured = file(review, last, last.findings(), Map.of("step-rate", rate));
        // The cue of the plan's table is 5 % more: 160 x 1.05 = 168
        assertThat(GERDY.visit(measured, measured.latest()).aftercare().stepRateTarget())
                .hasValue(168);
        assertThat(Observations.of(SHIPPED.terms(), measured, measured.latest()).missing("step-rate"))
                .isEmpty();
    }

    /**
     * No shipped red flag reads a measured finding, so one rule at a time is made to: the flag it raises must come out
     * of the trials as it comes out of the finding.
     */
    @Property(tries = 300)
    void aMeasureRaisesWhatItsFindingRaises(@ForAll Random random) {
        MeasureDefinition measure = BRIDGED.get(random.nextInt(BRIDGED.size()));
        KnowledgeBase knowledge = reading(measure, random);
        Side side = Side.values()[random.nextInt(3)];
        Map<String, Recorded> answers = new LinkedHashMap<>();
        Map<String, Measured> taken = new LinkedHashMap<>();
        taken(measure, random, taken, answers);
        Assessment byMeasure = assessed(knowledge, side, Map.of(), taken);
        Assessment byFinding = assessed(knowledge, side, answers, Map.of());
        assertThat(level(byMeasure)).isGreaterThanOrEqualTo(level(byFinding));
        assertThat(states(byMeasure)).isEqualTo(states(byFinding));
    }

    @Test
    void theComparisonSeesFlagsRaisedAndFlagsNot() {
        Set<String> seen = new LinkedHashSet<>();
        for (int i = 0; i < 200; i++) {
            Random random = new Random(i);
            MeasureDefinition measure = BRIDGED.get(random.nextInt(BRIDGED.size()));
            KnowledgeBase knowledge = reading(measure, random);
            Map<String, Measured> taken = new LinkedHashMap<>();
            taken(measure, random, taken, new LinkedHashMap<>());
            Assessment assessment = assessed(knowledge, Side.BOTH, Map.of(), taken);
            seen.add(assessment.raisedFlags().isEmpty() ? "none" : "raised");
        }
        assertThat(seen).containsExactlyInAnyOrder("none", "raised");
    }

    /** The knowledge base with one rule that raises a flag on this measure's finding instead. */
    private static KnowledgeBase reading(MeasureDefinition measure, Random random) {
        RuleCard card = RAISING.get(random.nextInt(RAISING.size()));
        String finding = measure.finding().orElseThrow();
        String condition = measure.kind() == MeasureKind.CHOICE
                ? finding + "="
                        + measure.choices().get(random.nextInt(measure.choices().size()))
                : finding + (random.nextBoolean() ? ">=" : "<") + number(total(measure, random));
        return KnowledgeVariant.rule(
                SHIPPED,
                new RuleCard(
                        card.id(),
                        card.name(),
                        card.file(),
                        card.line(),
                        card.row(),
                        card.sources(),
                        card.basis(),
                        card.because(),
                        Set.of(finding),
                        Optional.of(Expression.parse(condition)),
                        card.text()));
    }

    /** Trials of a measure on one side or both, and the answer each makes, worked out here by hand. */
    private static void taken(
            MeasureDefinition measure, Random random, Map<String, Measured> taken, Map<String, Recorded> answers) {
        String finding = measure.finding().orElseThrow();
        if (!measure.perSide()) {
            Read read = read(measure, random);
            taken.put(measure.id(), Measured.whole(measure.id(), Map.of(), read.readings()));
            answers.put(finding, new Recorded.Whole(read.answer()));
            return;
        }
        int sides = random.nextInt(3);
        Optional<Read> left = sides == 1 ? Optional.empty() : Optional.of(read(measure, random));
        Optional<Read> right = sides == 2 ? Optional.empty() : Optional.of(read(measure, random));
        taken.put(
                measure.id(),
                new Measured(
                        measure.id(), Map.of(), left.map(Read::readings), right.map(Read::readings), Optional.empty()));
        answers.put(finding, new Recorded.Sides(left.map(Read::answer), right.map(Read::answer)));
    }

    private record Read(Readings readings, Answer answer) {}

    private static Read read(MeasureDefinition measure, Random random) {
        if (measure.kind() == MeasureKind.CHOICE) {
            String word = measure.choices().get(random.nextInt(measure.choices().size()));
            return new Read(Readings.of(word), new Answer.Choice(word));
        }
        boolean index = measure.kind() == MeasureKind.INDEX;
        List<Double> trials = new ArrayList<>();
        for (int i = 0; i < (index ? measure.trials() : 1 + random.nextInt(3)); i++) {
            trials.add(reading(measure, random, index));
        }
        double sum = 0;
        double best = Double.NEGATIVE_INFINITY;
        for (double trial : trials) {
            sum += trial;
            best = Math.max(best, trial);
        }
        double value = index ? sum : measure.aggregate() == Trials.Aggregate.BEST ? best : sum / trials.size();
        Readings readings = new Readings(
                Map.of(
                        index ? "items" : "trials",
                        trials.stream().map(OptionalDouble::of).toList()),
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty());
        return new Read(readings, new Answer.Quantity(value, number(value)));
    }

    private static double reading(MeasureDefinition measure, Random random, boolean whole) {
        double low = measure.min().orElseThrow();
        double value = low + random.nextDouble() * (measure.max().orElseThrow() - low);
        return whole ? Math.rint(value) : Math.round(value * 10) / 10.0;
    }

    /** A cut-off among the values the measure can take. */
    private static double total(MeasureDefinition measure, Random random) {
        return measure.kind() == MeasureKind.INDEX ? random.nextInt(13) - 6 : reading(measure, random, false);
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }

    private static Assessment assessed(
            KnowledgeBase knowledge, Side side, Map<String, Recorded> answers, Map<String, Measured> taken) {
        Visit visit = new Visit(LocalDate.of(2026, 3, 2), side, answers, "", Optional.empty());
        CaseFile file = file(
                new CaseFile("measured", "", "", Map.of(), List.of(visit), Optional.empty()), visit, answers, taken);
        return new LogicReasoner(knowledge).screen(file, file.latest());
    }

    private static CaseFile file(
            CaseFile base, Visit last, Map<String, Recorded> answers, Map<String, Measured> taken) {
        List<Visit> visits = new ArrayList<>(base.visits());
        visits.set(
                visits.size() - 1,
                new Visit(
                        last.date(),
                        last.side(),
                        answers,
                        last.notes(),
                        last.decision(),
                        taken,
                        last.runs(),
                        last.runLog(),
                        last.plan(),
                        last.review()));
        return new CaseFile(base.id(), base.title(), base.source(), base.patient(), visits, base.expect());
    }

    private static int level(Assessment assessment) {
        return assessment.urgency().map(Urgency::ordinal).orElse(-1);
    }

    private static Map<String, String> states(Assessment assessment) {
        Map<String, String> states = new LinkedHashMap<>();
        assessment
                .flags()
                .forEach(flag -> states.put(
                        flag.id(), flag.state() + " " + flag.highest().map(row -> row.urgency())));
        return states;
    }
}
