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
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.Probe;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

/** How soon the order of questions gets where it must. A question the report does not answer is put off, and counts. */
class QuestionOrderTest {
    private static final int FLAG_WITHIN = 12;

    /**
     * How far a report got.
     *
     * @param anyFlag screens shown until the first flag; 0 without one
     * @param flagQuestions single questions put until the first flag, each of a compact screen counted; 0 without one
     * @param finalUrgency single questions put until the final urgency, each of a compact screen counted; 0 if never
     * @param screens screens shown until the final urgency
     */
    private record Walk(int anyFlag, int flagQuestions, int finalUrgency, int screens) {}

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

    /**
     * Answers one screen. A sign of a compact screen that is there is answered alone, and the rest is shown again; else
     * what the report leaves out is put off and the rest answered.
     */
    private static void answer(IntakeSession session, List<String> screen, Observations all) {
        Optional<String> there = screen.stream()
                .filter(id -> screen.size() > 1 && all.is(id, "present") == Truth.TRUE)
                .findFirst();
        for (String id : there.map(List::of).orElse(screen)) {
            all.recorded(id).ifPresentOrElse(one -> give(session, id, one), () -> session.putOff(id));
        }
    }

    private static Walk walk(CaseFile caseFile, Urgency last) {
        Observations all = all(caseFile);
        Set<String> put = new HashSet<>();
        int screens = 0;
        int any = 0;
        int flagQuestions = 0;
        try (IntakeSession session = new IntakeSession(
                Cases.GERDY, begun(caseFile), caseFile.latest().date())) {
            List<String> next = session.next().together();
            while (!next.isEmpty()) {
                screens++;
                put.addAll(next);
                answer(session, next, all);
                if (any == 0 && !session.assessment().raisedFlags().isEmpty()) {
                    any = screens;
                    flagQuestions = put.size();
                }
                if (session.assessment().urgency().equals(Optional.of(last))) {
                    return new Walk(any, flagQuestions, put.size(), screens);
                }
                next = session.next().together();
            }
        }
        return new Walk(any, flagQuestions, 0, screens);
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
        List<Integer> single = new ArrayList<>();
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
                    "%s %s: first flag on screen %d after %d questions, final urgency after %s questions on %d screens, %d in catalogue order%n",
                    caseFile.id(),
                    last.word() + (danger ? ", dangerous" : ""),
                    walk.anyFlag(),
                    walk.flagQuestions(),
                    walk.finalUrgency() == 0 ? "no" : walk.finalUrgency(),
                    walk.screens(),
                    catalogue);
            ratios.add(walk.finalUrgency() == 0 ? 1.0 : walk.finalUrgency() / (double) catalogue);
            if (danger) {
                single.add(walk.anyFlag() == 0 ? Integer.MAX_VALUE : walk.flagQuestions());
                if (walk.anyFlag() == 0 || walk.anyFlag() > FLAG_WITHIN) {
                    late.add(caseFile.id());
                }
            }
        }
        ratios.sort(null);
        single.sort(null);
        double median = ratios.get(ratios.size() / 2);
        long early = single.stream().filter(count -> count <= FLAG_WITHIN).count();
        System.out.printf(
                "%d dangerous cases with a flag: %d shown by screen %d; %d within %d single questions, median %d, most %d;"
                        + " final urgency after a median part of %.2f of catalogue order over %d cases%n",
                single.size(),
                single.size() - late.size(),
                FLAG_WITHIN,
                early,
                FLAG_WITHIN,
                single.get(single.size() / 2),
                single.get(single.size() - 1),
                median,
                ratios.size());
        assertThat(single).hasSizeGreaterThan(10);
        assertThat(late).isEmpty();
        assertThat(single.get(single.size() / 2)).isLessThanOrEqualTo(FLAG_WITHIN);
        assertThat(early).isGreaterThanOrEqualTo(single.size() * 9L / 10);
        assertThat(median).isLessThanOrEqualTo(0.5);
    }

    private static IntakeSession withAnswers(Map<String, String> states) {
        Map<String, Recorded> findings = new LinkedHashMap<>();
        states.forEach((id, state) -> {
            FindingDefinition finding =
                    Cases.GERDY.knowledge().catalogue().finding(id).orElseThrow();
            Answer answer = state.matches("[0-9]+")
                    ? new Answer.Quantity(Double.parseDouble(state), state)
                    : finding.choices().contains(state)
                            ? new Answer.Choice(state)
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
    void whatCouldRaiseARaisedFlagHigherIsAskedThoughItsEntryQuestionWasAnsweredNo() {
        Map<String, String> answers = new LinkedHashMap<>();
        answers.put("age", "23");
        answers.put("activity", "running");
        answers.put("prior-bsi", "present");
        answers.put("groin-pain", "absent");
        answers.put("hip-ir-pain", "absent");
        answers.put("hip-ir-limited", "absent");
        answers.put("pain-on-weight-bearing", "present");
        answers.put("focal-bony-tenderness", "present");
        answers.put("bony-tenderness-site", "distal-femur-shaft");
        try (IntakeSession session = withAnswers(answers)) {
            assertThat(session.assessment().flags())
                    .filteredOn(flag -> flag.id().equals("high-risk-bone-stress"))
                    .singleElement()
                    .satisfies(flag -> {
                        assertThat(flag.urgency()).contains(Urgency.URGENT);
                        assertThat(flag.open()).isFalse();
                    });
            NextQuestions next = session.next();
            Set<String> asked = new HashSet<>();
            while (next.best().isPresent() && !asked.contains("thigh-pain")) {
                asked.add(next.best().get().finding());
                session.putOff(next.best().get().finding());
                next = session.next();
            }
            assertThat(asked).contains("thigh-pain");
            assertThat(session.explain("thigh-pain").flags()).contains("high-risk-bone-stress");
            give(session, "thigh-pain", new Recorded.Sides(Optional.of(Answer.State.PRESENT), Optional.empty()));
            assertThat(session.assessment().urgency()).contains(Urgency.SAME_DAY);
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
    void questionsOfACompactScreenAreAnsweredEachAndCanBeTakenApart() {
        try (IntakeSession session =
                withAnswers(Map.of("age", "34", "acute-injury", "absent", "four-steps-now", "present"))) {
            List<String> screen = session.next().together();
            assertThat(screen).contains("chest-symptoms", "saddle-or-sphincter-change", "foot-cold-pale");
            give(session, "chest-symptoms", new Recorded.Whole(Answer.State.ABSENT));
            assertThat(session.assessment().openFlags().stream().flatMap(flag -> flag.ask().stream()))
                    .doesNotContain("chest-symptoms")
                    .contains("saddle-or-sphincter-change");
            List<String> rest = session.next().together();
            assertThat(rest)
                    .containsExactlyElementsOf(screen.stream()
                            .filter(id -> !id.equals("chest-symptoms"))
                            .toList());
            session.takeApart(rest);
            assertThat(session.next().together()).containsExactly(rest.get(0));
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
