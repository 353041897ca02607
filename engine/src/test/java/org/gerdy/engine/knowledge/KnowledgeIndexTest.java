package org.gerdy.engine.knowledge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class KnowledgeIndexTest {
    private static final String VERSION = "version,date\n7,2026-01-01\n";
    private static final String SOURCES = "key\none1999\ntwo2001\n";
    private static final String TABLE = "id,value\na,1\nb,2\n";

    private static InMemory files() {
        return InMemory.with("knowledge/version.csv", VERSION)
                .and("knowledge/table.csv", TABLE)
                .and("knowledge/sources.csv", SOURCES)
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
    void anyByteChangedChangesTheDigest(@ForAll @IntRange(max = 19) int at) throws IOException {
        String changed = TABLE.substring(0, at % TABLE.length())
                + (char) (TABLE.charAt(at % TABLE.length()) ^ 1)
                + TABLE.substring(at % TABLE.length() + 1);
        InMemory edited = files().and("knowledge/table.csv", changed);
        assertThat(KnowledgeIndex.digest(edited, edited.list()))
                .isNotEqualTo(KnowledgeIndex.digest(files(), files().list()));
    }

    @Test
    void aFileRenamedChangesTheDigest() {
        InMemory renamed = InMemory.with("knowledge/version.csv", VERSION)
                .and("knowledge/sources.csv", SOURCES)
                .and("knowledge/tables.csv", TABLE)
                .and("topic/rules.drl", RuleIndexerTest.GOOD);
        assertThat(digest(renamed)).isNotEqualTo(digest(files()));
    }

    @Test
    void aLineMovedFromOneFileToTheNextChangesTheDigest() {
        InMemory before = files().and("knowledge/a.csv", "k\nx\ny\n").and("knowledge/b.csv", "k\nz\n");
        InMemory after = files().and("knowledge/a.csv", "k\nx\n").and("knowledge/b.csv", "k\ny\nz\n");
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
        assertThat(index.files())
                .containsExactly(
                        "knowledge/sources.csv", "knowledge/table.csv", "knowledge/version.csv", "topic/rules.drl");
    }

    @Test
    void aSourceTheBibliographyLacksIsRefusedAtTheRuleThatNamesIt() {
        assertThatThrownBy(() -> digest(files().and("knowledge/sources.csv", "key\none1999\n")))
                .isInstanceOf(KnowledgeException.class)
                .hasMessageStartingWith("topic/rules.drl:5: the source 'two2001' is not in sources.csv");
    }
}
