package org.gerdy.cli.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.Map;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;

class MatchesTest {
    private static final Matches QUESTIONS = questions();

    private static Matches questions() {
        Map<String, String> texts = new LinkedHashMap<>();
        for (FindingDefinition finding : LateralKnee.knowledgeBase().catalogue().findings()) {
            texts.put(finding.id(), finding.question());
        }
        return new Matches(texts);
    }

    @Test
    void anIdWithSpacesIsThatQuestionAlone() {
        assertThat(QUESTIONS.of("noble compression")).containsExactly("noble-compression");
        assertThat(QUESTIONS.of("Effusion-Any")).containsExactly("effusion-any");
    }

    @Test
    void wordsOfTheRoomFindTheQuestionTheyMean() {
        assertThat(QUESTIONS.of("any fever")).contains("fever");
        assertThat(QUESTIONS.of("is the knee locking")).contains("locking");
        assertThat(QUESTIONS.of("four steps")).contains("four-steps-now");
        assertThat(QUESTIONS.of("worse going downhill")).startsWith("worse-downhill");
        assertThat(QUESTIONS.of("hip rotation pain")).contains("hip-ir-pain");
    }

    @Test
    void aSlipOfOneLetterIsForgiven() {
        assertThat(QUESTIONS.of("effuson")).contains("effusion-any");
    }

    @Test
    void wordsThatMeanNothingMatchNothing() {
        assertThat(QUESTIONS.of("qqqq zzzz")).isEmpty();
        assertThat(QUESTIONS.of("is the")).isEmpty();
    }
}
