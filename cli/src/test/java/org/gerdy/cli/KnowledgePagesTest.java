package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;

/** The pages under docs/knowledge say what the tables say. */
class KnowledgePagesTest {
    @Test
    void thePagesAreInStepWithTheTables() throws IOException {
        Path directory = Path.of(System.getProperty("gerdy.root"), "docs", "knowledge");
        for (Map.Entry<String, String> page :
                new KnowledgePages(LateralKnee.knowledgeBase()).pages().entrySet()) {
            assertThat(Files.readString(directory.resolve(page.getKey())))
                    .as("docs/knowledge/" + page.getKey() + "; run 'cli/gerdy rules pages docs/knowledge'")
                    .isEqualTo(page.getValue());
        }
    }
}
