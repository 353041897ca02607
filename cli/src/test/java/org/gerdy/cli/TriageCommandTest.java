package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TriageCommandTest {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Test
    void theDemonstrationIsPrintedAndEndsWithZero() {
        Run run = Run.of("triage", Run.DEMO);
        assertThat(run.code()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(run.out())
                .contains("Triage: case demo-marlow")
                .contains("Cautions")
                .contains("sha-256");
    }

    @Test
    void filesAloneAndFilesWithOptionsAreTheSameTriage() {
        String missing = "no-such-case.yaml";
        Run alone = Run.of("triage", Run.DEMO, missing, Run.DEMO);
        Run options = Run.of("triage", "--format", "text", Run.DEMO, missing, Run.DEMO);
        assertThat(alone.code()).isEqualTo(options.code()).isEqualTo(1);
        assertThat(alone.out()).isEqualTo(options.out()).contains("case demo-marlow");
        assertThat(alone.err()).isEqualTo(options.err()).contains(missing);
    }

    @Test
    void noLineOfAnyPageIsWiderThanEightyColumns() throws IOException {
        List<String> files = new java.util.ArrayList<>();
        for (String directory : List.of("boundary", "demo", "published")) {
            try (Stream<Path> paths = Files.walk(Run.ROOT.resolve("cases").resolve(directory))) {
                paths.filter(path -> path.toString().endsWith(".yaml"))
                        .sorted()
                        .map(Path::toString)
                        .forEach(files::add);
            }
        }
        List<String> args = new java.util.ArrayList<>(List.of("triage"));
        for (int i = 0; i < files.size(); i += 4) {
            args.add(files.get(i));
        }
        Run run = Run.of(args.toArray(String[]::new));
        assertThat(run.err()).isEmpty();
        assertThat(run.linesWiderThan(80)).isEmpty();
    }

    @Test
    void aCaseWithTheLongestIdStillFits(@TempDir Path directory) throws IOException {
        Path file = Files.writeString(
                directory.resolve("long.yaml"),
                "gerdy: 1\ncase: " + "long-id-".repeat(10) + "\nvisits:\n  - {date: 2026-03-02, side: both}\n");
        Run run = Run.of("triage", file.toString());
        assertThat(run.code()).isZero();
        assertThat(run.linesWiderThan(80)).isEmpty();
    }

    @Test
    void jsonParsesAndHoldsTheContract() throws IOException {
        Run run = Run.of("triage", "--format", "json", Run.DEMO);
        JsonNode json = JSON.readTree(run.out());
        assertThat(json.get("case").asText()).isEqualTo("demo-marlow");
        assertThat(json.at("/knowledge/sha256").asText()).matches("[0-9a-f]{64}");
        assertThat(json.at("/screening/complete").isBoolean()).isTrue();
        assertThat(json.get("flags")).hasSizeGreaterThan(40).allSatisfy(flag -> {
            assertThat(flag.get("state").asText()).isIn("raised", "open", "cleared");
            assertThat(flag.get("reasons").isArray()).isTrue();
            assertThat(flag.get("urgency").isNull())
                    .isEqualTo(!flag.get("state").asText().equals("raised"));
        });
        assertThat(json.get("candidates")).isNotEmpty().allSatisfy(candidate -> assertThat(
                        candidate.get("share").asDouble())
                .isBetween(
                        candidate.get("low").asDouble(), candidate.get("high").asDouble()));
    }

    @Test
    void severalCasesMakeAJsonArrayInTheOrderGiven() throws IOException {
        Run run = Run.of(
                "triage",
                "--format=json",
                Run.boundary("film-rule-age-misses"),
                Run.DEMO,
                Run.boundary("film-rule-age-meets"));
        JsonNode json = JSON.readTree(run.out());
        assertThat(json).hasSize(3);
        assertThat(json.findValuesAsText("case"))
                .containsExactly("film-rule-age-misses", "demo-marlow", "film-rule-age-meets");
    }

    @Test
    void severalCasesOfWhichOneIsBadPrintTheGoodOnesAndEndWithOne() throws IOException {
        Run run = Run.of("triage", "--format=json", Run.DEMO, "no-such-file.yaml", Run.DEMO);
        assertThat(run.code()).isEqualTo(1);
        assertThat(JSON.readTree(run.out())).hasSize(2);
        assertThat(run.err()).isEqualToIgnoringNewLines("no-such-file.yaml: There is no such file; check the path.");
    }

    @Test
    void aHyphenReadsStandardInput() throws IOException {
        String file = Path.of(Run.DEMO).resolveSibling("hot-knee.yaml").toString();
        Run run = Run.fed(Files.readString(Path.of(file)), "triage", "-");
        assertThat(run.code()).isZero();
        assertThat(run.out()).isEqualTo(Run.of("triage", file).out());
    }

    @Test
    void aFaultOfStandardInputIsNamedSo() {
        Run run = Run.fed("", "triage", "-");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).startsWith("standard input: The file is empty");
    }

    @Test
    void aDirectoryIsToldAndEndsWithOne(@TempDir Path directory) {
        Run run = Run.of("triage", directory.toString());
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).isEqualToIgnoringNewLines(directory + ": This is a directory; name a case file.");
    }

    @Test
    void wrongUsageEndsWithTwo() {
        for (String[] wrong : new String[][] {
            {"triage"},
            {"triage", "--format", "picture", Run.DEMO},
            {"triage", "--visit", "yesterday", Run.DEMO},
            {"triage", "--colour", Run.DEMO},
            {"diagnose", Run.DEMO}
        }) {
            Run run = Run.of(wrong);
            assertThat(run.code()).as(String.join(" ", wrong)).isEqualTo(2);
            assertThat(run.out()).isEmpty();
            assertThat(run.err()).isNotBlank();
            assertThat(run.isCivil()).as(run.err()).isTrue();
        }
    }

    @Test
    void aVisitThatIsNotThereIsToldWithTheOnesThatAre() {
        Run run = Run.of("triage", "--visit", "2020-01-01", Run.DEMO);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).contains("There is no visit on 2020-01-01; this case has 2026-09-14");
    }

    @Test
    void sameInputSameBytes() {
        assertThat(Run.of("triage", "--format=json", Run.DEMO)).isEqualTo(Run.of("triage", "--format=json", Run.DEMO));
        assertThat(Run.of("triage", Run.DEMO)).isEqualTo(Run.of("triage", Run.DEMO));
    }

    @Test
    void anOpenScreenIsNeverShownAsManageHere() {
        Run run = Run.fed("gerdy: 1\ncase: a\nvisits:\n  - {date: 2026-03-02, side: left}\n", "triage", "-");
        assertThat(run.out()).contains("Screening incomplete").doesNotContain("manage-here");
    }

    @Test
    void everyCommandHelpsWithAnExample() {
        for (String[] help : new String[][] {
            {"--help"},
            {"triage", "--help"},
            {"explain", "--help"},
            {"check", "--help"},
            {"rules", "list", "--help"},
            {"rules", "card", "--help"}
        }) {
            Run run = Run.of(help);
            assertThat(run.code()).isZero();
            assertThat(run.out()).containsPattern("Examples?:");
            assertThat(run.linesWiderThan(80)).isEmpty();
        }
    }
}
