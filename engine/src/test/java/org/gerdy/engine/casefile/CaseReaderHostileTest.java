package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** Whatever bytes come in: a case, or problems that name the file. Never another exception. */
class CaseReaderHostileTest {
    private static final List<String> SPLINTERS = List.of(
            "{",
            "}",
            "[",
            "]",
            ":",
            ",",
            "-",
            "&a ",
            "*a",
            "!!binary ",
            "!x ",
            "|\n",
            ">\n",
            "? ",
            "%YAML 9\n",
            "---\n",
            "...\n",
            "\t",
            "\"",
            "'",
            "\\x",
            "<<: ",
            "null",
            "~",
            "true",
            ".nan",
            ".inf",
            "1e999999999",
            "0x1F",
            "0o17",
            "1_000",
            "-0",
            "2026-02-30",
            "\u0000",
            "\uFEFF",
            "\u2028",
            "\uD83E\uDDB5",
            "présent",
            "present",
            "unable",
            "both",
            "left: ",
            "findings: ",
            "visits: ",
            "99999999999999999999");

    @Property
    void randomBytesGiveACaseOrProblems(@ForAll byte[] bytes) {
        refusedOrRead(bytes);
    }

    @Property
    void aDamagedCaseGivesACaseOrProblems(@ForAll("damaged") byte[] bytes) {
        refusedOrRead(bytes);
    }

    @Property
    void splintersOfYamlAndJsonGiveACaseOrProblems(@ForAll("splinters") String text) {
        refusedOrRead(text.getBytes(StandardCharsets.UTF_8));
    }

    private static void refusedOrRead(byte[] bytes) {
        try {
            CaseFile read = Sample.READER.read("folder/case.yaml", bytes);
            assertThat(read.visits()).isNotEmpty();
            assertThat(read.id()).matches("(?s)[a-z0-9][a-z0-9-]*\\n?");
        } catch (MendableException e) {
            assertThat(e.problems()).isNotEmpty().allSatisfy(problem -> {
                assertThat(problem.file()).isEqualTo("folder/case.yaml");
                assertThat(problem.toString()).startsWith("folder/case.yaml:");
                assertThat(problem.message()).isNotBlank();
                assertThat(problem.line()).isNotNegative();
            });
        }
    }

    @Provide
    Arbitrary<byte[]> damaged() {
        return Arbitraries.randomValue(random -> {
            byte[] good = Sample.GOOD.getBytes(StandardCharsets.UTF_8);
            for (int i = 0; i <= random.nextInt(4); i++) {
                good = damage(good, random);
            }
            return good;
        });
    }

    private static byte[] damage(byte[] good, Random random) {
        int from = random.nextInt(good.length + 1);
        int to = Math.min(good.length, from + random.nextInt(20));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(good, 0, from);
        switch (random.nextInt(5)) {
            case 0 -> out.write(good, to, good.length - to);
            case 1 -> {
                out.writeBytes(SPLINTERS.get(random.nextInt(SPLINTERS.size())).getBytes(StandardCharsets.UTF_8));
                out.write(good, from, good.length - from);
            }
            case 2 -> {
                out.write(random.nextInt(256));
                out.write(good, to, good.length - to);
            }
            case 3 -> {
                out.write(good, from, to - from);
                out.write(good, from, good.length - from);
            }
            default -> {}
        }
        return out.size() == 0 ? new byte[] {' '} : out.toByteArray();
    }

    @Provide
    Arbitrary<String> splinters() {
        return Arbitraries.of(SPLINTERS)
                .list()
                .ofMinSize(1)
                .ofMaxSize(15)
                .map(parts -> String.join("", parts))
                .flatMap(text -> Arbitraries.of(
                        text, "gerdy: 1\n" + text, "gerdy: 1\ncase: a\nvisits:\n  - " + text, Sample.with(text)));
    }
}
