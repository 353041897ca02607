package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FactorCommandsTest {
    private static final Path DEMO = Path.of(System.getProperty("gerdy.root"), "cases", "demo");
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

    private record Ran(int code, String out, String err) {}

    private static Ran run(String... command) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(new PrintWriter(out), new PrintWriter(err, true), command);
        return new Ran(code, out.toString(), err.toString());
    }

    private static Ran run(String input, List<String> command) {
        InputStream before = System.in;
        System.setIn(new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8)));
        try {
            return run(command.toArray(String[]::new));
        } finally {
            System.setIn(before);
        }
    }

    private static String demo(String file) {
        return DEMO.resolve(file).toString();
    }

    private static List<MeasureDefinition> measures() {
        return List.copyOf(LateralKnee.knowledgeBase().factors().measures().values());
    }

    @Test
    void triageOfTheDemoRunnerFindsTheSpikeInItsDiary() {
        Ran ran = run("triage", demo("first-visit.yaml"));
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("Contributing factors\n")
                .contains("* One run much longer than the longest of the 30 days before: contributes\n")
                .contains("18.3 km on 2026-08-09, longest before 11.2 km: moderate.")
                .contains("* Hip abductor strength: borderline\n")
                .contains("Not measured: ");
        assertThat(ran.out().lines()).allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
    }

    @Test
    void anEmergencyIsNotFollowedByThingsToMeasure() {
        Ran ran = run("triage", demo("hot-knee.yaml"));
        assertThat(ran.out()).contains("emergency").doesNotContain("Not measured:");
    }

    @Test
    void aVerdictAndTheRowsItRestsOnAreExplained() {
        assertThat(run("explain", demo("first-visit.yaml"), "session-spike").out())
                .contains("Contributing factor session-spike: contributes", "error:tl-031", "frandsen2025:");
        assertThat(run("explain", demo("first-visit.yaml"), "error:tl-031").out())
                .contains("Error of measurement tl-031");
        assertThat(run("explain", demo("first-visit.yaml"), "factor:step-rate").out())
                .contains("Contributing factor step-rate: borderline");
        assertThat(run("rules", "card", "session-spike").out()).contains("Read on it:");
    }

    @Test
    void aCaseFromStandardInputMayNotNameRunFiles() throws IOException {
        Ran ran = run(Files.readString(DEMO.resolve("first-visit.yaml")), List.of("triage", "-"));
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err()).startsWith("standard input:").contains("'marlow-runs.csv' cannot be looked for");
    }

    @Test
    void theLoadChartFitsEightyColumnsAndNamesTheSpikeByAWord() {
        Ran ran = run("load", demo("marlow-runs.csv"), "--unlisted", "rest", "--pain-began", "2026-08-09");
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("week from      km runs longest  0          20          40\n")
                .contains("2026-07-12   30.2    4    11.2  |==================\n")
                .contains("then 2026-08-09: 18.3 km, the first painful session, moderate spike +63 %");
        assertThat(ran.out().lines()).allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
    }

    @Test
    void theSpikeStandsInItsWeekWhenTheWindowsRunOn() {
        Ran ran = run("load", demo("marlow-runs.csv"), "--unlisted", "rest", "--as-of", "2026-08-09", "--weeks", "2");
        assertThat(ran.out())
                .contains("2026-07-27   19.6    3     8.3  |")
                .contains("2026-08-03   32.0    3    18.3  |=================== moderate spike +63 %\n");
    }

    @Test
    void loadAsJsonReadsStandardInput() throws IOException {
        Ran ran = run(
                Files.readString(DEMO.resolve("marlow-runs.csv")),
                List.of("load", "-", "--unlisted", "rest", "--pain-began", "2026-08-09", "--format", "json"));
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("\"firstPainful\" : \"2026-08-09\"", "\"session-spike\"", "\"value\" : 63.3929")
                .endsWith("}\n");
    }

    @Test
    void loadMistakesAreToldInASentence(@TempDir Path directory) throws IOException {
        assertThat(run("load", "no-such.csv").err()).contains("There is no such file; check the path.");
        assertThat(run("load", demo("marlow-runs.csv"), "--zone", "Mars/Olympus")
                        .err())
                .isEqualTo("'Mars/Olympus' is not a time zone; write one such as Europe/London.\n");
        assertThat(run("load", demo("marlow-runs.csv"), "--weeks", "0").code()).isEqualTo(2);
        Path bare = Files.writeString(directory.resolve("bare.csv"), "date,distance\n2026-03-02,10\n");
        Ran unit = run("load", bare.toString());
        assertThat(unit.code()).isEqualTo(1);
        assertThat(unit.err()).contains("bare.csv:2");
    }

    @Test
    void everyMeasureShowsItsProtocolAndItsExampleRuns() {
        List<String> shown = new ArrayList<>();
        for (MeasureDefinition measure : measures()) {
            Ran help = run("measure", measure.id(), "--help");
            assertThat(help.code()).as(measure.id()).isZero();
            assertThat(help.out()).contains("How it is taken:\n");
            assertThat(help.out().lines()).as(measure.id()).allSatisfy(line -> assertThat(line)
                    .hasSizeLessThanOrEqualTo(80));
            if (measure.kind() != MeasureKind.LABORATORY) {
                Ran example = run(words("measure " + measure.id() + " " + measure.example()));
                assertThat(example.err()).as(measure.id()).isEmpty();
                assertThat(example.code()).as(measure.id()).isZero();
                assertThat(example.out().lines())
                        .allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
                shown.add(measure.id());
            }
        }
        assertThat(shown).hasSizeGreaterThan(30);
    }

    private static String[] words(String line) {
        List<String> words = new ArrayList<>();
        Matcher word = WORD.matcher(line);
        while (word.find()) {
            words.add(word.group(1) == null ? word.group(2) : word.group(1));
        }
        return words.toArray(String[]::new);
    }

    @Test
    void aSideDifferenceInsideTheErrorOfBlocksReadsBorderlineAndBeyondItContributes() {
        // 16.9 mm: 1.96 x the spread printed for levelling the crests (factor-errors.csv, ll-008)
        assertThat(run("measure", "leg-length-blocks", "--painful", "left", "--left", "16 mm, 16 mm", "--right", "0 mm")
                        .out())
                .contains("Difference of leg length: borderline");
        assertThat(run("measure", "leg-length-blocks", "--painful", "left", "--left", "18 mm, 18 mm", "--right", "0 mm")
                        .out())
                .contains("Difference of leg length: contributes");
    }

    @Test
    void measureMistakesAreToldInASentence() {
        assertThat(run("measure", "step-rat", "--value", "164").err())
                .isEqualTo("There is no measure 'step-rat'; did you mean 'step-rate'?\n");
        assertThat(run("measure", "lunge-distance", "--left", "9 cm", "--right", "12 cm")
                        .err())
                .startsWith("Say which side hurts: --painful left, right or both");
        assertThat(run("measure", "lunge-distance", "--painful", "left", "--left", "9", "--right", "12 cm")
                        .err())
                .isEqualTo("'9' has no unit; write cm behind it.\n");
        assertThat(run("measure", "lunge-distance", "--painful", "left", "--left", "9 kg", "--right", "12 cm")
                        .err())
                .contains("is not taken in 'kg'");
        assertThat(run("measure", "step-rate", "--left", "164").err())
                .startsWith("'step-rate' has no sides; give --value");
        assertThat(run("measure", "hip-adduction-3d", "--value", "9").err()).contains("not measured at the bedside");
    }

    @Test
    void theListNamesEveryMeasureAndSaysWhichAreNotTaken() {
        String list = run("measure").out();
        measures().forEach(measure -> assertThat(list.replaceAll("\\s+", " "))
                .contains(measure.kind() == MeasureKind.LABORATORY ? measure.label() : measure.id() + ":"));
        assertThat(run("measure", "--help").out()).contains("Usage:").contains("--painful");
    }
}
