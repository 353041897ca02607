package org.gerdy.rules.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.drill.Difficulty;
import org.gerdy.engine.drill.DrillPatient;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

class MadePatientTest {
    private static final long SEEDS = Long.getLong("gerdy.drill.seeds", 1000);

    @Test
    void noPatientHoldsAnswersThatCannotStandTogetherOrAConditionItsAgeOrSexForbids() {
        ClashFinder clashes = new ClashFinder(DrillSchool.KNOWLEDGE.terms());
        List<String> faults = new ArrayList<>();
        Map<String, Integer> drawn = new HashMap<>();
        for (long seed = 0; seed < SEEDS; seed++) {
            DrillPatient patient = DrillSchool.MAKER.make(seed);
            Observations whole = patient.whole(DrillSchool.KNOWLEDGE.catalogue());
            long number = seed;
            clashes.clashes(whole).forEach(clash -> faults.add(number + ": " + clash.message()));
            for (String id : whole.recorded().keySet()) {
                DrillSchool.KNOWLEDGE
                        .catalogue()
                        .finding(id)
                        .orElseThrow()
                        .onlyIf()
                        .filter(gate -> gate.in(whole) == Truth.FALSE)
                        .ifPresent(gate -> faults.add(number + ": " + id + " is answered though not " + gate));
            }
            patient.causes().stream()
                    .filter(cause -> !possible(DrillSchool.KNOWLEDGE.condition(cause), whole))
                    .forEach(cause -> faults.add(number + ": " + cause + " cannot be"));
            drawn.merge(patient.causes().get(0), 1, Integer::sum);
        }
        System.out.println(
                "made patients: " + SEEDS + " numbers, " + faults.size() + " faults, " + drawn.size() + " conditions");
        assertThat(faults).isEmpty();
        assertThat(drawn.keySet()).containsExactlyInAnyOrderElementsOf(DrillSchool.MAKER.conditions());
    }

    @Test
    void aTextbookPatientIsTextbookAndAnAtypicalOneLessSo() {
        LogicReasoner reasoner = new LogicReasoner(DrillSchool.KNOWLEDGE);
        Map<Difficulty, int[]> counts = new EnumMap<>(Difficulty.class);
        for (long seed = 0; seed < SEEDS; seed++) {
            Difficulty difficulty = DrillSchool.MAKER.draw(seed).difficulty();
            if (difficulty == Difficulty.TEXTBOOK || difficulty == Difficulty.ATYPICAL) {
                DrillPatient patient = DrillSchool.MAKER.make(seed);
                int place =
                        reasoner
                                .assess(patient.id(), patient.whole(DrillSchool.KNOWLEDGE.catalogue()))
                                .candidates()
                                .stream()
                                .map(CandidateResult::condition)
                                .toList()
                                .indexOf(patient.causes().get(0));
                int[] count = counts.computeIfAbsent(difficulty, ignored -> new int[3]);
                count[0]++;
                count[1] += place == 0 ? 1 : 0;
                count[2] += place >= 0 && place < 3 ? 1 : 0;
            }
        }
        counts.forEach((difficulty, count) -> System.out.println("made patients, " + difficulty + ": " + count[0] + ", "
                + count[1] + " led with their condition, " + count[2] + " had it within three"));
        int[] textbook = counts.getOrDefault(Difficulty.TEXTBOOK, new int[3]);
        int[] atypical = counts.getOrDefault(Difficulty.ATYPICAL, new int[3]);
        assertThat(textbook[2]).isGreaterThan(textbook[0] * 9 / 10);
        assertThat(textbook[1] * atypical[0]).isGreaterThan(atypical[1] * textbook[0]);
    }

    private static boolean possible(Condition condition, Observations whole) {
        String other = condition.sex().equals("female") ? "male" : "female";
        boolean sex = condition.sex().isEmpty() || !whole.choices("sex").contains(other);
        boolean young = condition.ageMin().isPresent()
                && whole.compare("age", Comparison.BELOW, condition.ageMin().getAsDouble()) == Truth.TRUE;
        boolean old = condition.ageMax().isPresent()
                && whole.compare("age", Comparison.ABOVE, condition.ageMax().getAsDouble()) == Truth.TRUE;
        return sex && !young && !old;
    }

    @Test
    void theSameNumberMakesTheSamePatient() {
        for (long seed = 0; seed < 20; seed++) {
            assertThat(DrillSchool.MAKER.make(seed)).isEqualTo(DrillSchool.MAKER.make(seed));
        }
    }

    @Test
    void everyConditionIsDrawnAtEveryDifficulty() {
        for (String condition : DrillSchool.MAKER.conditions()) {
            for (Difficulty difficulty : Difficulty.values()) {
                long seed = DrillSchool.MAKER.seed(condition, difficulty, 0);
                assertThat(DrillSchool.MAKER.draw(seed).condition()).isEqualTo(condition);
                assertThat(DrillSchool.MAKER.draw(seed).difficulty()).isEqualTo(difficulty);
            }
        }
    }

    @Test
    void everyConditionButUnexplainedHasAProfile() {
        assertThat(DrillSchool.MAKER.conditions())
                .containsExactlyInAnyOrderElementsOf(DrillSchool.KNOWLEDGE.conditions().keySet().stream()
                        .filter(condition -> !condition.equals(Condition.UNEXPLAINED))
                        .toList());
    }

    @Test
    void aTextbookPatientWithAConditionNotToBeMissedMustNotWait() {
        LogicReasoner reasoner = new LogicReasoner(DrillSchool.KNOWLEDGE);
        for (Condition condition : DrillSchool.KNOWLEDGE.conditions().values()) {
            if (condition.mustNotMiss()) {
                DrillPatient patient =
                        DrillSchool.MAKER.make(DrillSchool.MAKER.seed(condition.id(), Difficulty.TEXTBOOK, 0));
                Optional<Urgency> urgency = reasoner.assess(
                                patient.id(), patient.whole(DrillSchool.KNOWLEDGE.catalogue()))
                        .urgency();
                assertThat(urgency.orElseThrow())
                        .as(condition.id() + " " + patient.id())
                        .isGreaterThanOrEqualTo(Urgency.URGENT);
            }
        }
    }

    @Test
    void missingAnswersNeverLeaveARedFlagOpen() {
        LogicReasoner reasoner = new LogicReasoner(DrillSchool.KNOWLEDGE);
        int missing = 0;
        for (String condition : DrillSchool.MAKER.conditions().subList(0, 15)) {
            DrillPatient patient =
                    DrillSchool.MAKER.make(DrillSchool.MAKER.seed(condition, Difficulty.MISSING_ANSWERS, 0));
            missing += patient.cannotSay().size();
            assertThat(reasoner.assess(patient.id(), patient.whole(DrillSchool.KNOWLEDGE.catalogue()))
                            .openFlags())
                    .as(condition)
                    .isEmpty();
        }
        assertThat(missing).isPositive();
    }

    @Test
    void theOpeningTellsNeitherConditionNorDifficulty() {
        for (long seed = 0; seed < 40; seed++) {
            DrillPatient patient = DrillSchool.MAKER.make(seed);
            String name =
                    DrillSchool.KNOWLEDGE.condition(patient.causes().get(0)).name();
            assertThat(patient.opening())
                    .doesNotContain(name)
                    .contains(patient.side().word());
            Map<String, Recorded> given = patient.given();
            assertThat(given.keySet()).containsExactlyInAnyOrder("age", "sex", "activity");
        }
    }
}
