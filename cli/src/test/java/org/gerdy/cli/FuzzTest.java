package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.KnowledgeArchive;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.KnowledgeIndex;
import org.gerdy.engine.knowledge.KnowledgeLoader;
import org.gerdy.engine.knowledge.RuleCompiler;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Spoilt input ends in a clear error or a valid result, never in anything else. */
class FuzzTest {
    private static final String[] PIECES = {
        ": ",
        "-",
        "\n",
        "  ",
        "\"",
        "{",
        "}",
        "[",
        "]",
        "present",
        "absent",
        "999999999",
        "-1",
        "1e400",
        "null",
        "\u0000",
        "\uFEFF",
        "&a",
        "*a",
        "|",
        ",",
        "=",
        "AND",
        "(",
        ")",
        ">=",
        "é",
        "#",
        "'",
        "\t"
    };

    private static String spoilt(String text, Random random) {
        StringBuilder changed = new StringBuilder(text);
        for (int times = 1 + random.nextInt(3); times > 0 && changed.length() > 0; times--) {
            int at = random.nextInt(changed.length());
            int to = Math.min(changed.length(), at + 1 + random.nextInt(12));
            switch (random.nextInt(5)) {
                case 0 -> changed.delete(at, to);
                case 1 -> changed.insert(at, changed.substring(at, to));
                case 2 -> changed.insert(at, PIECES[random.nextInt(PIECES.length)]);
                case 3 -> changed.setCharAt(at, (char) (32 + random.nextInt(95)));
                default -> changed.replace(at, to, PIECES[random.nextInt(PIECES.length)]);
            }
        }
        return changed.toString();
    }

    @Test
    void a_spoilt_case_file_ends_in_a_clear_error_or_a_valid_result() throws Exception {
        Gerdy gerdy = LateralKnee.gerdy();
        LogicReasoner reasoner = new LogicReasoner(gerdy.knowledge());
        List<String> seeds = new ArrayList<>();
        try (Stream<Path> files = Files.walk(Ran.root("cases"))) {
            for (Path file : files.filter(one -> one.toString().endsWith(".yaml"))
                    .sorted()
                    .toList()) {
                seeds.add(Files.readString(file));
            }
        }
        Random random = new Random(11);
        int valid = 0;
        int tries = Ran.thorough() ? 100_000 : 1_000;
        for (int i = 0; i < tries; i++) {
            String text = spoilt(seeds.get(random.nextInt(seeds.size())), random);
            try {
                var read = gerdy.read("case", new java.io.ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
                assertThat(reasoner.assess(read, read.latest()).flags()).isNotEmpty();
                valid++;
            } catch (MendableException e) {
                assertThat(e.problems()).isNotEmpty();
            }
        }
        assertThat(valid).isBetween(1, tries - 1);
    }

    @Test
    void a_spoilt_rule_directory_ends_in_a_clear_error_or_a_valid_knowledge_base(@TempDir Path cache) throws Exception {
        Map<String, byte[]> files = files(KnowledgeFiles.in(Ran.rules()));
        List<String> names = List.copyOf(files.keySet());
        var compiled = LateralKnee.knowledgeBase().kieBase();
        Random random = new Random(12);
        int valid = 0;
        int tries = Ran.thorough() ? 10_000 : 60;
        for (int i = 0; i < tries; i++) {
            String name = names.get(random.nextInt(names.size()));
            Map<String, byte[]> changed = new TreeMap<>(files);
            String text = new String(files.getOrDefault(name, new byte[0]), StandardCharsets.UTF_8);
            changed.put(name, spoilt(text, random).getBytes(StandardCharsets.UTF_8));
            KnowledgeFiles spoilt = KnowledgeArchive.of(changed);
            try {
                KnowledgeIndex index = KnowledgeIndex.of(spoilt);
                KnowledgeBase base = KnowledgeLoader.load(spoilt, index.identity(), index.rules(), compiled);
                assertThat(base.bibliography()).isNotEmpty();
                var one = new Gerdy(base).read(Ran.root("cases/demo/first-visit.yaml"));
                assertThat(new LogicReasoner(base).assess(one, one.latest()).flags())
                        .isNotEmpty();
                if (i % 500 == 0) {
                    // Compiling is slow, so only some are taken all the way.
                    RuleCompiler.load(spoilt, cache);
                }
                valid++;
            } catch (KnowledgeException e) {
                assertThat(e.getMessage()).isNotBlank();
            } catch (MendableException e) {
                // The case no longer speaks the words of the spoilt tables.
                assertThat(e.problems()).isNotEmpty();
            }
        }
        assertThat(valid).isPositive();
    }

    private static Map<String, byte[]> files(KnowledgeFiles from) throws IOException {
        Map<String, byte[]> files = new TreeMap<>();
        for (String path : from.list()) {
            try (InputStream in = from.open(path)) {
                files.put(path, in.readAllBytes());
            }
        }
        return files;
    }
}
