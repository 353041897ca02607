package org.gerdy.rules.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.intake.NextQuestions;
import org.gerdy.engine.intake.Suggestion;
import org.gerdy.engine.reasoning.Probe;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

/** How soon the order of questions gets where it must. A question the report does not answer is put off, and counts. */
class QuestionOrderTest {
    private static final int FLAG_WITHIN = 12;

    /** Reports whose flag rests on a test no danger screen begins with; each with its reason. */
    private static final Map<String, String> LATER = Map.of(
            "published-p031", "raised by a straight leg raise in a 17-year-old with no back pain and no numbness",
            "teaching-cauda-equina", "its one question stands behind those that raise flags more often",
            "teaching-cold-foot", "its one question stands behind those that raise flags more often",
            "teaching-compartment-syndrome", "raised by pain out of proportion, which is rare without an injury",
            "teaching-femoral-neck", "raised by groin pain, asked with the hip",
            "teaching-posterolateral-corner", "raised by laxity together with a nerve sign, late in an injured knee");

    /** A report says whether it was dangerous; another case is where somebody must see it the same day. */
    private record Walk(int anyFlag, int finalUrgency) {}

    private static CaseFile begun(CaseFile caseFile) {
        Visit visit = caseFile.latest();
        return new CaseFile(
                caseFile.id(),
                "",
                "",
                Map.of(),
                List.of(new Visit(visit.date(), visit.side(), Map.of(), "", Optional.empty())),
                Optional.empty());
    }

    private static Observations all(CaseFile caseFile) {
        return Observations.of(Cases.GERDY.knowledge().terms(), caseFile, caseFile.latest());
    }

    private static void give(IntakeSession session, String id, Recorded recorded) {
        FindingDefinition finding =
                Cases.GERDY.knowledge().catalogue().finding(id).orElseThrow();
        CaseFile changed = session.caseFile();
        if (finding.perSide()) {
            for (Side side : List.of(Side.LEFT, Side.RIGHT)) {
                Optional<Answer> answer = recorded.on(side);
                if (answer.isPresent()) {
                    changed = session.with(changed, id, Optional.of(side), answer.get());
                }
            }
        } else {
            changed = session.with(
                    changed, id, Optional.empty(), recorded.on(Side.LEFT).orElseThrow());
        }
        session.proceed(changed, id);
    }

    private static Walk walk(CaseFile caseFile, Urgency last) {
        Observations all = all(caseFile);
        int asked = 0;
        int any = 0;
        try (IntakeSession session = new IntakeSession(
                Cases.GERDY, begun(caseFile), caseFile.latest().date())) {
            Optional<Suggestion> next = session.next().best();
            while (next.isPresent()) {
                asked++;
                String id = next.get().finding();
                Optional<Recorded> recorded = all.recorded(id);
                recorded.ifPresentOrElse(one -> give(session, id, one), () -> session.putOff(id));
                if (any == 0 && !session.assessment().raisedFlags().isEmpty()) {
                    any = asked;
                }
                if (session.assessment().urgency().equals(Optional.of(last))) {
                    return new Walk(any, asked);
                }
                next = session.next().best();
            }
        }
        return new Walk(any, 0);
    }

    private static int inCatalogueOrder(CaseFile caseFile, Urgency last) {
        Observations all = all(caseFile);
        int asked = 0;
        try (Probe probe = new Probe(Cases.GERDY.knowledge(), all(begun(caseFile)))) {
            for (FindingDefinition finding : Cases.GERDY.knowledge().catalogue().findings()) {
                if (probe.observations().applies(finding)
                        || all.recorded(finding.id()).isPresent()) {
                    asked++;
                    Optional<Recorded> recorded = all.recorded(finding.id());
                    if (recorded.isPresent()) {
                        probe.stand(probe.observations().with(finding.id(), recorded.get()));
                    }
                    if (probe.now().urgency().equals(Optional.of(last))) {
                        return asked;
                    }
                }
            }
        }
        throw new IllegalStateException(caseFile.id() + " never reaches " + last.word());
    }

    @Test
    void dangerousCasesShowTheirFlagEarlyAndHalfTheQuestionsReachTheFinalUrgency() throws Exception {
        List<Double> ratios = new ArrayList<>();
        List<String> late = new ArrayList<>();
        int dangerous = 0;
        for (Path file : Cases.in("demo", "teaching", "published")) {
            CaseFile caseFile = Cases.GERDY.read(file);
            Assessment full = Cases.GERDY.assess(caseFile);
            if (full.raisedFlags().isEmpty()) {
                continue;
            }
            Urgency last = full.urgency().orElseThrow();
            Walk walk = walk(caseFile, last);
            int catalogue = inCatalogueOrder(caseFile, last);
            String text = Files.readString(file);
            boolean danger = text.contains("danger: true")
                    || (!text.contains("danger: false") && last.compareTo(Urgency.SAME_DAY) >= 0);
            System.out.printf(
                    "%s %s: first flag at %d, final urgency at %s of %d in catalogue order%n",
                    caseFile.id(),
                    last.word() + (danger ? ", dangerous" : ""),
                    walk.anyFlag(),
                    walk.finalUrgency() == 0 ? "no question asked," : walk.finalUrgency(),
                    catalogue);
            ratios.add(walk.finalUrgency() == 0 ? 1.0 : walk.finalUrgency() / (double) catalogue);
            if (danger) {
                dangerous++;
                if ((walk.anyFlag() == 0 || walk.anyFlag() > FLAG_WITHIN) && !LATER.containsKey(caseFile.id())) {
                    late.add(caseFile.id());
                }
            }
        }
        ratios.sort(null);
        double median = ratios.get(ratios.size() / 2);
        System.out.printf(
                "%d dangerous cases with a flag, %d later than question %d; median part of catalogue order %.2f over %d"
                        + " cases%n",
                dangerous, late.size() + LATER.size(), FLAG_WITHIN, median, ratios.size());
        assertThat(dangerous).isGreaterThan(10);
        assertThat(late).isEmpty();
        assertThat(median).isLessThanOrEqualTo(0.5);
    }

    private static IntakeSession withAnswers(Map<String, String> states) {
        Map<String, Recorded> findings = new LinkedHashMap<>();
        states.forEach((id, state) -> {
            FindingDefinition finding =
                    Cases.GERDY.knowledge().catalogue().finding(id).orElseThrow();
            Answer answer = state.matches("[0-9]+")
                    ? new Answer.Quantity(Double.parseDouble(state), state)
                    : Answer.State.valueOf(state.toUpperCase(java.util.Locale.ROOT));
            findings.put(
                    id,
                    finding.perSide()
                            ? new Recorded.Sides(Optional.of(answer), Optional.empty())
                            : new Recorded.Whole(answer));
        });
        LocalDate day = LocalDate.of(2026, 3, 2);
        Visit visit = new Visit(day, Side.LEFT, findings, "", Optional.empty());
        return new IntakeSession(
                Cases.GERDY, new CaseFile("invented", "", "", Map.of(), List.of(visit), Optional.empty()), day);
    }

    @Test
    void provocativeTestsAreHeldBackWhileAFractureIsOpenAndTheFlagThatHoldsThemIsNamed() {
        try (IntakeSession session =
                withAnswers(Map.of("age", "30", "acute-injury", "present", "four-steps-now", "absent"))) {
            Set<String> suggested = new HashSet<>();
            NextQuestions next = session.next();
            while (next.best().isPresent()) {
                String id = next.best().get().finding();
                suggested.add(id);
                session.putOff(id);
                next = session.next();
            }
            assertThat(suggested).allSatisfy(id -> assertThat(Cases.GERDY
                            .knowledge()
                            .catalogue()
                            .finding(id)
                            .orElseThrow()
                            .provocative())
                    .as(id)
                    .isFalse());
            assertThat(session.heldBackBy("varus-laxity-30")).contains("possible-fracture");
            assertThat(next.heldBack())
                    .extracting(NextQuestions.HeldBack::finding)
                    .contains("varus-laxity-30");
        }
    }

    @Test
    void everyRankedQuestionCanBeExplainedByWhatEachAnswerWouldDo() {
        try (IntakeSession session = withAnswers(Map.of("age", "30", "acute-injury", "absent"))) {
            for (Suggestion suggestion : session.next().ranked()) {
                Suggestion explained = session.explain(suggestion.finding());
                assertThat(explained.flags()).as(suggestion.finding()).isNotEmpty();
                assertThat(explained.seconds()).isPositive();
                double chances = explained.possible().stream()
                        .mapToDouble(Suggestion.Possible::chance)
                        .sum();
                if (!explained.possible().isEmpty()) {
                    assertThat(chances).isCloseTo(1.0, org.assertj.core.api.Assertions.within(1e-9));
                }
            }
        }
    }

    @Test
    void aQuestionPutOffComesBackWhenTakenUpAgain() {
        try (IntakeSession session = withAnswers(Map.of())) {
            String first = session.next().best().orElseThrow().finding();
            session.putOff(first);
            assertThat(session.next().best().orElseThrow().finding()).isNotEqualTo(first);
            session.takeUpAgain();
            assertThat(session.next().best().orElseThrow().finding()).isEqualTo(first);
        }
    }
}
