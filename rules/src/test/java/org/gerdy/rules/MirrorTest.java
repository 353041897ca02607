package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Arrays;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gerdy.engine.assessment.AssessmentJson;
import org.junit.jupiter.api.Test;

/** Left and right are only names: mirror the answers, and the assessment mirrors. */
class MirrorTest {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Provide
    Arbitrary<RandomCase> cases() {
        return RandomCase.any();
    }

    @Property
    void mirroredAnswersGiveTheMirroredAssessment(@ForAll("cases") RandomCase one) throws Exception {
        JsonNode mirrored = JSON.readTree(AssessmentJson.line(one.mirrored().assessed()));
        JsonNode straight = JSON.readTree(AssessmentJson.line(one.assessed()));
        assertThat(inOrder(swapped(straight))).isEqualTo(inOrder(mirrored));
    }

    @Test
    void theComparisonSeesASideThatDoesNotSwap() throws Exception {
        JsonNode left = JSON.readTree("{\"side\": \"left\", \"value\": \"38 cm left, 35 cm right\"}");
        assertThat(inOrder(swapped(left)))
                .isEqualTo(JSON.readTree("{\"side\": \"right\", \"value\": \"35 cm left, 38 cm right\"}"))
                .isNotEqualTo(JSON.readTree("{\"side\": \"right\", \"value\": \"38 cm left, 35 cm right\"}"));
    }

    /** Swaps the sides where a side is meant: a word of prose such as "left" for "remaining" stays. */
    private static JsonNode swapped(JsonNode node) {
        if (node instanceof ObjectNode object) {
            object.fieldNames().forEachRemaining(name -> {
                if (name.equals("side") || name.equals("value") || name.equals("seen")) {
                    object.put(name, swapped(object.get(name).asText()));
                } else if (name.equals("contradictions")) {
                    ArrayNode told = (ArrayNode) object.get(name);
                    for (int i = 0; i < told.size(); i++) {
                        told.set(i, leftFirst(swapped(told.get(i).asText())));
                    }
                } else {
                    swapped(object.get(name));
                }
            });
        } else if (node instanceof ArrayNode array) {
            array.forEach(MirrorTest::swapped);
        }
        return node;
    }

    private static String swapped(String text) {
        return text.replaceAll("\\bleft\\b", "\u0000")
                .replaceAll("\\bright\\b", "left")
                .replace("\u0000", "right");
    }

    /** A sentence that tells both legs names the left first. */
    private static String leftFirst(String text) {
        return text.replaceAll("(?<=' |recorded )([^',]+?) right, ([^',]+?) left", "$2 left, $1 right");
    }

    /** Values told for both legs name the left first; put the parts in one order. */
    private static JsonNode inOrder(JsonNode node) {
        if (node instanceof ObjectNode object) {
            object.fieldNames().forEachRemaining(name -> {
                if (name.equals("seen")) {
                    // Several measures name themselves and their sides in one line; their words must be the same.
                    object.put(
                            name,
                            Arrays.stream(object.get(name).asText().split("[ ,;]+"))
                                    .sorted()
                                    .collect(Collectors.joining(" ")));
                } else if (name.equals("value")) {
                    object.put(name, parts(object.get(name).asText()));
                } else {
                    inOrder(object.get(name));
                }
            });
        } else if (node instanceof ArrayNode array) {
            array.forEach(MirrorTest::inOrder);
        }
        return node;
    }

    private static String parts(String text) {
        return Arrays.stream(text.split(", ")).sorted().collect(Collectors.joining(", "));
    }
}
