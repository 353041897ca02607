package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.gerdy.engine.casefile.CaseReaderFaultsTest.problems;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Files that are no readable document at all: one sentence each, quickly, whatever their size. */
class CaseReaderShapesTest {
    private static final Duration QUICK = Duration.ofSeconds(10);

    static Stream<Arguments> shapes() {
        return Stream.of(
                Arguments.of("nothing", "", "case.yaml: The file is empty; a case starts with 'gerdy: 1'."),
                Arguments.of("blanks", " \n\n  \n", "case.yaml: The file is empty; a case starts with 'gerdy: 1'."),
                Arguments.of(
                        "comments only",
                        "# one\n# two\n",
                        "case.yaml: The file holds only comments; a case starts with 'gerdy: 1'."),
                Arguments.of(
                        "two documents",
                        Sample.GOOD + "---\n" + Sample.GOOD,
                        "case.yaml:31:1: A second document starts here; a case file holds one case."),
                Arguments.of(
                        "two JSON documents",
                        "{\"gerdy\": 1}\n{\"gerdy\": 1}",
                        "case.yaml:2:1: A second document starts here; a case file holds one case."),
                Arguments.of(
                        "an anchor",
                        "gerdy: 1\ncase: a\nvisits: &a\n  - {date: 2026-03-02, side: left}\n",
                        "case.yaml:3:9: YAML anchors and aliases (& and *) are not read in case files; write the value out."),
                Arguments.of(
                        "an alias",
                        Sample.with("injury: &a present\nlooks-normal: *a"),
                        "case.yaml:8:21: YAML anchors and aliases (& and *) are not read in case files; write the value out."),
                Arguments.of(
                        "a tab that indents",
                        "gerdy: 1\ncase: a\nvisits:\n\t- date: 2026-03-02\n",
                        "case.yaml:4:1: This is not well-formed YAML: found character '\\t(TAB)' that cannot start any token. (Do not use \\t(TAB) for indentation)."),
                Arguments.of("a list", "- 1\n- 2\n", "case.yaml:1:1: The case should be a block of keys, not a list."),
                Arguments.of(
                        "a word", "hello", "case.yaml:1:1: The case should be a block of keys, not the text 'hello'."));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("shapes")
    void whatIsNoCaseGivesOneSentence(String what, String text, String message) {
        assertThat(problems(text)).extracting(Problem::toString).containsExactly(message);
    }

    @Test
    void truncatedJsonIsToldAtItsEnd() {
        String json = "{\"gerdy\": 1, \"case\": \"a\",\n \"visits\": [{\"date\": \"2026-03-02\"";
        assertThat(problems(json)).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(2);
            assertThat(problem.message()).startsWith("This is not well-formed JSON: ");
            assertThat(problem.message()).doesNotContain("\n");
        });
    }

    @Test
    void aByteThatIsNotUtf8IsToldAtItsPlace() {
        byte[] bytes = "gerdy: 1\ncase: sample\ntitle: caf\u00e9\n".getBytes(StandardCharsets.ISO_8859_1);
        assertThat(problems(bytes))
                .extracting(Problem::toString)
                .containsExactly(
                        "case.yaml:3:11: A byte here is not UTF-8; save the file as UTF-8 text and try again.");
    }

    @ParameterizedTest(name = "{0} deep")
    @MethodSource("deep")
    void nestingWithoutEndIsRefused(String what, String text) {
        Assertions.assertTimeoutPreemptively(
                QUICK,
                () -> assertThat(problems(text)).singleElement().satisfies(problem -> assertThat(problem.message())
                        .isEqualTo("Nested more than 40 levels deep; a case needs fewer than ten.")));
    }

    static Stream<Arguments> deep() {
        int depth = 5000;
        StringBuilder block = new StringBuilder();
        for (int i = 0; i < depth; i++) {
            block.append(" ".repeat(i)).append("a:\n");
        }
        return Stream.of(
                Arguments.of("YAML lists", "[".repeat(depth)),
                Arguments.of("YAML lists in a key", "gerdy: " + "[".repeat(depth) + "]".repeat(depth)),
                Arguments.of("JSON objects", "{\"a\":".repeat(depth)),
                Arguments.of("YAML maps in a key", "gerdy: " + "{a: ".repeat(depth)),
                Arguments.of("YAML blocks", block.substring(0, 100_000)));
    }

    @Test
    void anAliasBombIsRefusedBeforeItGrows() {
        StringBuilder bomb = new StringBuilder("a: &a [x, x, x, x, x, x, x, x, x]\n");
        for (char c = 'b'; c < 'k'; c++) {
            String before = "*" + (char) (c - 1);
            bomb.append(c)
                    .append(": &")
                    .append(c)
                    .append(" [")
                    .append(String.join(
                            ", ",
                            Arrays.asList(before, before, before, before, before, before, before, before, before)))
                    .append("]\n");
        }
        Assertions.assertTimeoutPreemptively(QUICK, () -> assertThat(problems(bomb.toString()))
                .singleElement()
                .satisfies(problem -> assertThat(problem.message()).startsWith("YAML anchors and aliases")));
    }

    @ParameterizedTest(name = "{0} MB")
    @MethodSource("sizes")
    void aFileFarTooLargeIsRefusedWithoutReadingOn(int megabytes, @TempDir Path directory) throws Exception {
        Path file = directory.resolve("large.yaml");
        byte[] line = ("# " + "x".repeat(1021) + "\n").getBytes(StandardCharsets.UTF_8);
        try (var out = Files.newOutputStream(file)) {
            for (int i = 0; i < megabytes * 1024; i++) {
                out.write(line);
            }
        }
        String message = ": The file is larger than 4 MB; a case file holds one case.";
        Assertions.assertTimeoutPreemptively(QUICK, () -> {
            MendableException fromFile = catchThrowableOfType(MendableException.class, () -> Sample.READER.read(file));
            assertThat(fromFile).hasMessage(file + message);
            try (InputStream in = Files.newInputStream(file)) {
                MendableException fromStream =
                        catchThrowableOfType(MendableException.class, () -> Sample.READER.read("-", in));
                assertThat(fromStream).hasMessage("-" + message);
            }
        });
    }

    static Stream<Integer> sizes() {
        return Stream.of(5, 50);
    }

    @Test
    void aLongTextJustBelowTheLimitIsStillOneSentence() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes("gerdy: 1\ncase: a\ntitle: ".getBytes(StandardCharsets.UTF_8));
        byte[] rest = new byte[3_900_000];
        Arrays.fill(rest, (byte) 'x');
        out.writeBytes(rest);
        Assertions.assertTimeoutPreemptively(
                QUICK, () -> assertThat(problems(out.toByteArray())).hasSize(1));
    }

    @Test
    void aNumberWithAnEnormousExponentIsNotWorkedOut() {
        String text = Sample.GOOD
                .replace("41 years", "1e999999999")
                .replace("some-condition: 3", "some-condition: 1e999999999");
        Assertions.assertTimeoutPreemptively(
                QUICK, () -> assertThat(problems(text)).isNotEmpty());
    }

    @Test
    void aMissingFileAndADirectoryAreTold(@TempDir Path directory) {
        assertThat(catchThrowableOfType(
                        MendableException.class, () -> Sample.READER.read(directory.resolve("none.yaml"))))
                .hasMessage(directory.resolve("none.yaml") + ": There is no such file; check the path.");
        assertThat(catchThrowableOfType(MendableException.class, () -> Sample.READER.read(directory)))
                .hasMessage(directory + ": This is a directory; name a case file.");
    }

    @Test
    void aStreamThatEndsEarlyIsAnEmptyFile() {
        assertThat(Sample.READER.check("-", new ByteArrayInputStream(new byte[0])))
                .extracting(Problem::toString)
                .containsExactly("-: The file is empty; a case starts with 'gerdy: 1'.");
    }
}
