package org.gerdy.rules.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.gerdy.engine.knowledge.KnowledgeArchive;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.KnowledgeLoader;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the table of the asking order takes. */
class OrderTableTest {
    private static final String TABLE = "knowledge/intake-order.csv";

    private static KnowledgeFiles withRow(String row) throws Exception {
        KnowledgeFiles shipped = LateralKnee.files();
        Map<String, byte[]> files = new LinkedHashMap<>();
        for (String name : shipped.list()) {
            if (name.endsWith(".drl")) {
                continue; // The rules are handed over compiled.
            }
            try (InputStream in = shipped.open(name)) {
                files.put(name, in.readAllBytes());
            }
        }
        String text = new String(files.get(TABLE), StandardCharsets.UTF_8);
        files.put(TABLE, (text + row + "\n").getBytes(StandardCharsets.UTF_8));
        return KnowledgeArchive.of(files);
    }

    private static KnowledgeBase load(KnowledgeFiles files) {
        KnowledgeBase shipped = LateralKnee.knowledgeBase();
        return KnowledgeLoader.load(files, shipped.identity(), shipped.rules(), shipped.kieBase());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "knee-flexion,90,,,hands,judgement,a number",
                "hop-test,90,,,hands,judgement,a test that provokes",
                "four-steps-now,90,,,hands,judgement,no is the danger sign"
            })
    void onlyPlainSignsShareAScreen(String row) throws Exception {
        KnowledgeFiles files = withRow(row);
        assertThatThrownBy(() -> load(files))
                .isInstanceOf(KnowledgeException.class)
                .hasMessageContaining(TABLE)
                .hasMessageContaining("only yes-or-no questions stand together");
    }

    @Test
    void aSignSharesAScreen() throws Exception {
        assertThat(load(withRow("limp,90,,,hands,judgement,a sign")).intake().screen())
                .anyMatch(place ->
                        place.finding().equals("limp") && place.together().isPresent());
    }
}
