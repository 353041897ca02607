package org.gerdy.engine.knowledge;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class KnowledgeIndexTest {
    private static final String VERSION = "version,date\n7,2026-01-01\n";
    private static final String TABLE = "id,value\na,1\nb,2\n";

    private static InMemory files() {
        return InMemory.with("knowledge/version.csv", VERSION)
                .and("knowledge/table.csv", TABLE)
                .and("topic/rules.drl", RuleIndexerTest.GOOD);
    }

    private static String digest(InMemory files) {
        return KnowledgeIndex.of(files).identity().sha256();
    }

    @Test
    void theDigestIsSixtyFourHexadecimalDigitsAndTheSameForTheSameContent() {
        assertThat(digest(files())).matches("[0-9a-f]{64}").isEqualTo(digest(files()));
    }

    @Property(tries = 60)
    void anyByteChangedChangesTheDigest(@ForAll @IntRange(max = 19) int at) {
        String changed = TABLE.substring(0, at % TABLE.length())
                + (char) (TABLE.charAt(at % TABLE.length()) ^ 1)
                + TABLE.substring(at % TABLE.length() + 1);
        assertThat(digest(files().and("knowledge/table.csv", changed))).isNotEqualTo(digest(files()));
    }

    @Test
    void aFileRenamedChangesTheDigest() {
        InMemory renamed = InMemory.with("knowledge/version.csv", VERSION)
                .and("knowledge/tables.csv", TABLE)
                .and("topic/rules.drl", RuleIndexerTest.GOOD);
        assertThat(digest(renamed)).isNotEqualTo(digest(files()));
    }

    @Test
    void aLineMovedFromOneFileToTheNextChangesTheDigest() {
        InMemory before = files().and("knowledge/a.csv", "x\ny\n").and("knowledge/b.csv", "z\n");
        InMemory after = files().and("knowledge/a.csv", "x\n").and("knowledge/b.csv", "y\nz\n");
        assertThat(digest(after)).isNotEqualTo(digest(before));
    }

    @Test
    void anIndexWrittenReadsBackTheSame() throws IOException {
        KnowledgeIndex index = KnowledgeIndex.of(files());
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        index.write(out);
        assertThat(KnowledgeIndex.read(new ByteArrayInputStream(out.toByteArray())))
                .isEqualTo(index);
        assertThat(index.identity().version()).isEqualTo("7");
        assertThat(index.files()).containsExactly("knowledge/table.csv", "knowledge/version.csv", "topic/rules.drl");
    }
}
