package org.gerdy.engine.knowledge;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CompiledRulesKeyTest {
    private static final List<String> RULES = List.of("a.drl");

    @TempDir
    Path directory;

    private String key(String drl, ClassLoader classes) throws IOException {
        Files.writeString(directory.resolve("a.drl"), drl, StandardCharsets.UTF_8);
        return RuleCompiler.key(KnowledgeFiles.in(directory), RULES, classes);
    }

    private static ClassLoader ours() {
        return CompiledRulesKeyTest.class.getClassLoader();
    }

    @Test
    void anotherRuleHasAnotherKey() throws IOException {
        String one = "import org.gerdy.engine.fact.Finding;\nrule \"a\" when Finding() then end\n";
        assertThat(key(one, ours())).isEqualTo(key(one, ours()));
        assertThat(key(one.replace("\"a\"", "\"b\""), ours())).isNotEqualTo(key(one, ours()));
    }

    @Test
    void theSameRulesWrittenAgainstAnotherClassHaveAnotherKey() throws IOException {
        String drl = "import org.gerdy.engine.fact.Finding;\n";
        ClassLoader changed = new ClassLoader(ours()) {
            @Override
            public InputStream getResourceAsStream(String name) {
                return name.equals("org/gerdy/engine/fact/Finding.class")
                        ? new ByteArrayInputStream(new byte[] {1})
                        : super.getResourceAsStream(name);
            }
        };
        assertThat(key(drl, changed)).isNotEqualTo(key(drl, ours()));
        assertThat(key("import org.gerdy.engine.fact.RedFlag;\n", changed))
                .isEqualTo(key("import org.gerdy.engine.fact.RedFlag;\n", ours()));
    }
}
