package org.gerdy.rules.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Outlook;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.reasoning.Consultation;
import org.gerdy.engine.reasoning.Probe;
import org.junit.jupiter.api.Test;

/** Answers added, changed and taken back one by one lead where reading them all at once leads. */
class LivingSessionTest {
    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    private static Visit visit(Side side, Map<String, Recorded> answers) {
        return new Visit(DAY, side, answers, "", Optional.empty());
    }

    private static Assessment atOnce(Side side, Map<String, Recorded> answers) {
        Visit visit = visit(side, answers);
        return Cases.GERDY.assess(new CaseFile("invented", "", "", Map.of(), List.of(visit), Optional.empty()), visit);
    }

    private static Consultation consult(Side side, Map<String, Recorded> answers) {
        Visit visit = visit(side, answers);
        return Cases.GERDY.consult(new CaseFile("invented", "", "", Map.of(), List.of(visit), Optional.empty()), visit);
    }

    @Property(tries = 60)
    void aLivingSessionAgreesWithOneShotEvaluationAfterAnyAnswersAndRetractions(@ForAll long chance) {
        Random random = new Random(chance);
        Side side = Side.values()[random.nextInt(3)];
        Map<String, Recorded> answers = RandomAnswers.some(random, side, random.nextInt(30));
        try (Consultation living = consult(side, answers)) {
            for (int step = 0; step < 12; step++) {
                Assessment follows;
                if (random.nextInt(3) == 0 && !answers.isEmpty()) {
                    String taken = new ArrayList<>(answers.keySet()).get(random.nextInt(answers.size()));
                    answers.remove(taken);
                    follows = living.retract(taken);
                } else {
                    Map.Entry<String, Recorded> given = RandomAnswers.some(random, side, 1)
                            .entrySet()
                            .iterator()
                            .next();
                    answers.put(given.getKey(), given.getValue());
                    follows = living.answer(given.getKey(), given.getValue());
                }
                assertThat(follows).isEqualTo(atOnce(side, answers));
            }
        }
    }

    @Property(tries = 60)
    void whatAProbeForeseesIsWhatTheFullAssessmentFinds(@ForAll long chance) {
        Random random = new Random(chance);
        Side side = Side.values()[random.nextInt(3)];
        Map<String, Recorded> answers = new LinkedHashMap<>(RandomAnswers.some(random, side, random.nextInt(40)));
        Observations known = Observations.of(Cases.GERDY.knowledge().catalogue(), side, answers);
        try (Probe probe = new Probe(Cases.GERDY.knowledge(), known)) {
            agree(probe.now(), atOnce(side, answers));
            for (int step = 0; step < 10; step++) {
                Map.Entry<String, Recorded> given = RandomAnswers.some(random, side, 1)
                        .entrySet()
                        .iterator()
                        .next();
                Map<String, Recorded> changed = new LinkedHashMap<>(answers);
                changed.put(given.getKey(), given.getValue());
                agree(probe.given(given.getKey(), given.getValue()), atOnce(side, changed));
                if (step % 3 == 0) {
                    answers = changed;
                    probe.stand(probe.observations().with(given.getKey(), given.getValue()));
                }
            }
        }
    }

    private static void agree(Outlook outlook, Assessment assessment) {
        assertThat(outlook.urgency()).isEqualTo(assessment.urgency());
        assertThat(outlook.open())
                .isEqualTo(assessment.openFlags().stream().map(Flag::id).collect(Collectors.toSet()));
        assertThat(outlook.raised().keySet())
                .isEqualTo(assessment.raisedFlags().stream().map(Flag::id).collect(Collectors.toSet()));
        assertThat(outlook.shares()).hasSize(assessment.candidates().size());
        assessment.candidates().forEach(candidate -> assertThat(outlook.shares().get(candidate.condition()))
                .isCloseTo(candidate.share(), within(1e-9)));
    }

    @Test
    void aCountedSignThatCompletesACountInALivingSessionDoesNotBreakIt() throws Exception {
        CaseFile demo = Cases.GERDY.read(Cases.in("demo").stream()
                .filter(path -> path.endsWith("first-visit.yaml"))
                .findFirst()
                .orElseThrow());
        try (Consultation living = Cases.GERDY.consult(demo, demo.latest())) {
            for (var finding : Cases.GERDY.knowledge().catalogue().findings()) {
                for (int i = 0; i < 3; i++) {
                    Observations other = living.observations()
                            .with(finding.id(), RandomAnswers.of(new Random(i), finding.id(), Side.LEFT));
                    assertThat(living.wouldFollow(other).urgency()).isNotNull();
                }
            }
            assertThat(living.assess()).isEqualTo(Cases.GERDY.assess(demo));
        }
    }

    @Test
    void anIntakeSessionKeepsTheCaseAndItsConclusionsTogether() {
        CaseFile begun =
                new CaseFile("invented", "", "", Map.of(), List.of(visit(Side.LEFT, Map.of())), Optional.empty());
        Random random = new Random(7);
        try (IntakeSession session = new IntakeSession(Cases.GERDY, begun, DAY)) {
            for (int i = 0; i < 20; i++) {
                String id = session.next().best().orElseThrow().finding();
                var finding = Cases.GERDY.knowledge().catalogue().finding(id).orElseThrow();
                Recorded answer = RandomAnswers.of(random, id, Side.LEFT);
                Optional<Side> side = finding.perSide() ? Optional.of(Side.LEFT) : Optional.empty();
                Optional<org.gerdy.engine.casefile.Answer> given = answer.on(Side.LEFT);
                if (given.isEmpty()) {
                    session.putOff(id);
                    continue;
                }
                session.proceed(session.with(session.caseFile(), id, side, given.get()), id);
                assertThat(session.assessment()).isEqualTo(Cases.GERDY.assess(session.caseFile()));
            }
        }
    }
}
