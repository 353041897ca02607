package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

/** Asking only what is open, a benign runner is through the danger screen in a few minutes, hip and spine included. */
class BenignRunnerTest {
    private static final Map<String, String> ANSWERS = Map.of(
            "age",
            "34",
            "activity",
            "running",
            "sex",
            "female",
            "symptom-duration",
            "5",
            "morning-stiffness",
            "none",
            "onset-type",
            "gradual",
            "symptom-trend",
            "same",
            "knee-film-report",
            "not-done");

    private static String healthy(String id) {
        if (ANSWERS.containsKey(id)) {
            return ANSWERS.get(id);
        }
        Map<String, String> definition = RandomCase.definition(id);
        assertThat(definition.get("kind")).as("a healthy answer to " + id).isEqualTo("yes-no");
        return definition.get("danger_when").equals("absent") ? "present" : "absent";
    }

    @Test
    void aBenignAdultRunnerCompletesTheScreenWithTwentyFiveToThirtyFiveAnswers() {
        Patient runner = Patient.aged(34);
        List<String> asked = new ArrayList<>(List.of("age"));
        Assessment assessment = runner.assessed();
        while (!assessment.screeningComplete() && asked.size() < 100) {
            String next = firstOpen(assessment);
            assertThat(asked).as("nothing is asked twice").doesNotContain(next);
            asked.add(next);
            runner = runner.with(next + ": " + healthy(next));
            assessment = runner.assessed();
        }
        System.out.println("A benign adult runner completes the screen with " + asked.size() + " answers: " + asked);
        assertThat(assessment.screeningComplete()).isTrue();
        assertThat(assessment.urgency()).contains(Urgency.MANAGE_HERE);
        assertThat(asked.size()).isBetween(25, 35);
        assertThat(asked)
                .contains(
                        "hip-ir-limited", "hip-ir-pain", "groin-pain", "back-pain", "lumbar-movement-reproduces-pain");
    }

    private static String firstOpen(Assessment assessment) {
        return assessment.openFlags().stream()
                .map(Flag::ask)
                .flatMap(List::stream)
                .findFirst()
                .orElseThrow(() -> new AssertionError("open, yet nothing to ask"));
    }

    @Test
    void forgettingAnyOneOfTheAnswersNeverLeavesAManageHere() {
        Patient complete = Patient.healthy(34);
        assertThat(complete.urgency()).isEqualTo("manage-here");
        for (Map<String, String> row : Shipped.table("findings.csv")) {
            if (row.get("section").equals("danger") && complete.yaml().contains(" " + row.get("id") + ":")) {
                assertThat(complete.without(row.get("id")).urgency())
                        .as("without " + row.get("id"))
                        .isEqualTo("none");
            }
        }
    }
}
