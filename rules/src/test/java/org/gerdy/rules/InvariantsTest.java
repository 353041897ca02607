package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.vocabulary.Urgency;

/** What must hold for every patient, made up at random. */
class InvariantsTest {
    /** These say which rule applies and are no danger signs by themselves. */
    private static final Set<String> GATES = Set.of(
            "acute-injury",
            "crps-better-explanation",
            "dvt-alternative-as-likely",
            "fracture-rule-excluded",
            "pregnancy-status",
            "age",
            "activity");

    @Provide
    Arbitrary<RandomCase> cases() {
        return RandomCase.any();
    }

    /** The urgency, or what it could still become while the screen is open and nothing as high is raised. */
    private static int reach(Assessment assessment) {
        return Math.max(
                assessment.urgency().map(Urgency::ordinal).orElse(-1),
                assessment.couldBecome().map(Urgency::ordinal).orElse(-1));
    }

    private static boolean notLower(Assessment before, Assessment after) {
        Optional<Urgency> now = before.urgency();
        return now.isEmpty()
                || after.urgency()
                        .filter(urgency -> urgency.compareTo(now.get()) >= 0)
                        .isPresent()
                || (!after.screeningComplete() && reach(after) >= now.get().ordinal());
    }

    private static Recorded everywhereItHurts(String id, Side side, Answer.State state) {
        if (!RandomCase.perSide(id)) {
            return new Recorded.Whole(state);
        }
        Optional<Answer> answer = Optional.of(state);
        return new Recorded.Sides(
                side == Side.RIGHT ? Optional.empty() : answer, side == Side.LEFT ? Optional.empty() : answer);
    }

    @Property
    void aDangerSignMadePresentNeverLowersTheUrgency(@ForAll("cases") RandomCase one, @ForAll int pick) {
        List<String> signs = RandomCase.ORACLE.findings().keySet().stream()
                .filter(id -> !RandomCase.definition(id).get("danger_when").isBlank() && !GATES.contains(id))
                .toList();
        String sign = signs.get(Math.floorMod(pick, signs.size()));
        Answer.State danger = RandomCase.definition(sign).get("danger_when").equals("absent")
                ? Answer.State.ABSENT
                : Answer.State.PRESENT;
        Recorded answer = everywhereItHurts(sign, one.side(), danger);
        if (!notLower(one.assessed(), one.with(sign, answer).assessed())) {
            RandomCase least = one.smallest(smaller ->
                    !notLower(smaller.assessed(), smaller.with(sign, answer).assessed()));
            fail("Making %s %s lowers the urgency of %s", sign, danger.text(), least);
        }
    }

    @Property
    void aNormalAnswerForgottenNeverLowersTheUrgency(@ForAll("cases") RandomCase one, @ForAll int pick) {
        List<String> normal = one.answers().keySet().stream()
                .filter(id -> isNormal(id, one.answers().get(id)))
                .toList();
        if (normal.isEmpty()) {
            return;
        }
        String forgotten = normal.get(Math.floorMod(pick, normal.size()));
        if (!notLower(one.assessed(), one.without(forgotten).assessed())) {
            RandomCase least = one.smallest(smaller -> smaller.answers().containsKey(forgotten)
                    && !notLower(smaller.assessed(), smaller.without(forgotten).assessed()));
            fail("Not asking %s lowers the urgency of %s", forgotten, least);
        }
    }

    private static boolean isNormal(String id, Recorded recorded) {
        if (!RandomCase.definition(id).get("kind").equals("yes-no")) {
            return false;
        }
        Answer.State normal = RandomCase.definition(id).get("danger_when").equals("absent")
                ? Answer.State.PRESENT
                : Answer.State.ABSENT;
        return List.of(Side.LEFT, Side.RIGHT).stream()
                .allMatch(
                        leg -> recorded.on(leg).map(answer -> answer == normal).orElse(true));
    }

    /** A complete screen stays complete only by its answers: the healthy runner's, one forgotten at a time. */
    @Property
    void noAnswerForgottenCompletesTheScreen(@ForAll("cases") RandomCase one, @ForAll int pick) {
        RandomCase screened = nearlyComplete(one, pick);
        if (screened.assessed().screeningComplete()) {
            return;
        }
        for (String id : List.copyOf(screened.answers().keySet())) {
            if (Math.floorMod(id.hashCode() + pick, 12) == 0) {
                assertThat(screened.without(id).assessed().screeningComplete())
                        .as("Not asking %s completes the screen of %s", id, screened)
                        .isFalse();
            }
        }
    }

    /** Nor does any single answer more open a complete screen, as not giving it would complete it again. */
    @Example
    void noFurtherAnswerOpensACompleteScreen() {
        RandomCase healthy =
                new RandomCase(Side.LEFT, Patient.healthy(33).file().latest().findings());
        assertThat(healthy.assessed().screeningComplete()).isTrue();
        int tried = 0;
        for (String id : RandomCase.ORACLE.findings().keySet()) {
            if (healthy.answers().containsKey(id)) {
                continue;
            }
            for (Answer answer : answers(id)) {
                Optional<Answer> given = Optional.of(answer);
                List<Recorded> ways = RandomCase.perSide(id)
                        ? List.of(
                                new Recorded.Sides(given, Optional.empty()),
                                new Recorded.Sides(Optional.empty(), given))
                        : List.of(new Recorded.Whole(answer));
                for (Recorded way : ways) {
                    tried++;
                    assertThat(healthy.with(id, way).assessed().screeningComplete())
                            .as("%s %s", id, way)
                            .isTrue();
                }
            }
        }
        assertThat(tried).isGreaterThan(1000);
    }

    private static List<Answer> answers(String id) {
        return switch (RandomCase.definition(id).get("kind")) {
            case "yes-no" -> List.of(Answer.State.values());
            case "choice" ->
                Stream.of(RandomCase.definition(id).get("choices").split("\\|"))
                        .map(choice -> (Answer) new Answer.Choice(choice))
                        .toList();
            default -> List.of();
        };
    }

    /** The healthy runner's answers with some of the random ones on top, so that few flags stay open. */
    private static RandomCase nearlyComplete(RandomCase one, int pick) {
        RandomCase healthy =
                new RandomCase(Side.LEFT, Patient.healthy(33).file().latest().findings());
        int taken = 0;
        for (var entry : one.answers().entrySet()) {
            if (taken++ < 1 + Math.floorMod(pick, 4)) {
                healthy = healthy.with(entry.getKey(), entry.getValue());
            }
        }
        return healthy;
    }

    @Property
    void theOrderOfTheAnswersChangesNothing(@ForAll("cases") RandomCase one, @ForAll Random random) {
        assertThat(AssessmentJson.line(one.shuffled(random).assessed())).isEqualTo(AssessmentJson.line(one.assessed()));
    }

    @Property
    void everyConclusionHasAReasonAndEveryReasonASourceOrAnHonestBasis(@ForAll("cases") RandomCase one) {
        assertThat(Reasoned.faults(one.assessed())).isEmpty();
    }

    @Property
    void sharesAddUpToOneAndLieInsideTheirBounds(@ForAll("cases") RandomCase one) {
        Assessment assessment = one.assessed();
        List<String> wrong = new ArrayList<>();
        assessment.candidates().forEach(candidate -> {
            boolean ordered = candidate.low() <= candidate.share() && candidate.share() <= candidate.high();
            if (!ordered || candidate.low() < 0 || candidate.high() > 1) {
                wrong.add(candidate.condition());
            }
        });
        assertThat(wrong).isEmpty();
        assertThat(assessment.candidates().stream()
                        .mapToDouble(CandidateResult::share)
                        .sum())
                .isCloseTo(1, within(1e-9));
    }
}
