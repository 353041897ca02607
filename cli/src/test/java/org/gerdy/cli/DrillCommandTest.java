package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DrillCommandTest {
    private static final String CASE = "8";
    private static final List<String> LINES = List.of(
            "acute-injury",
            "four-steps-now",
            "is the knee warm",
            "warmth-palpable",
            "noble-compression",
            "notes",
            "candidate iliotibial-band-syndrome 50",
            "candidate patellofemoral-pain 20",
            "settle tender-lateral-epicondyle",
            "plan other-training",
            "factor shoe-change",
            "urgency manage-here",
            "commit");

    @TempDir
    Path directory;

    private Path script(List<String> lines) throws IOException {
        return Files.write(directory.resolve("lines.txt"), lines);
    }

    private Run drill(List<String> lines, String... more) throws IOException {
        List<String> args = new java.util.ArrayList<>(List.of(
                "drill", "--case", CASE, "--script", script(lines).toString(), "--progress", directory.toString()));
        args.addAll(List.of(more));
        return Run.of(args.toArray(String[]::new));
    }

    @Test
    void aScriptedDrillIsMarkedWithReasonsAndBothPaths() throws IOException {
        Run run = drill(LINES);
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("Score: ")
                .contains("Safety: ")
                .contains("noble-compression early")
                .contains("Your path beside the most informative path")
                .contains("Made from: ")
                .contains("brier1950");
        assertThat(run.linesWiderThan(80)).isEmpty();
    }

    @Test
    void theDrillInTheDocumentsIsWhatTheProgramPrints() throws IOException {
        String page = Files.readString(Run.ROOT.resolve("docs/drill-played.md"));
        String shown = page.substring(page.indexOf("```\n") + 4, page.lastIndexOf("```"));
        List<String> typed = shown.lines()
                .filter(line -> line.startsWith("> "))
                .map(line -> line.substring(2))
                .toList();
        assertThat(typed).hasSizeGreaterThan(10);
        Run run = Run.of("drill", "--case", "553", "--script", script(typed).toString());
        assertThat(run.out()).isEqualTo(shown);
    }

    @Test
    void theSameLinesGiveTheSamePage() throws IOException {
        assertThat(drill(LINES).out()).isEqualTo(drill(LINES).out());
    }

    @Test
    void nothingBeforeTheMarkNamesTheCause() throws IOException {
        String out = drill(List.of("acute-injury", "notes", "quit")).out();
        assertThat(out)
                .contains("Left without committing")
                .doesNotContain("Made from")
                .doesNotContain("baker");
    }

    @Test
    void linesThatMeanNothingAreCountedAndEndInExitCodeOne() throws IOException {
        Run run = drill(List.of("qqqqxx", "urgency soon", "candidate band", "commit", "quit"));
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains("match nothing")
                .contains("Urgency is one of")
                .contains("State an urgency first");
    }

    @Test
    void moreThanAllOfAHundredPercentIsRefused() throws IOException {
        String out = drill(List.of(
                        "candidate baker-cyst 70",
                        "candidate ganglion-cyst 40",
                        "candidate ganglion-cyst 30",
                        "sheet",
                        "quit"))
                .out();
        assertThat(out).contains("30 % is left").contains("ganglion-cyst 30 %");
    }

    @Test
    void theMarkIsKeptUnderThePseudonymAndReported() throws IOException {
        assertThat(drill(LINES, "--learner", "heron", "--on", "2026-03-02").out())
                .contains("Kept under heron");
        Run report = Run.of("drill", "report", "heron", "--progress", directory.toString(), "--on", "2026-03-10");
        assertThat(report.code()).isZero();
        assertThat(report.out())
                .contains("2026-03-02")
                .contains("due now")
                .contains("Calibration")
                .contains("wozniak1990");
        assertThat(report.linesWiderThan(80)).isEmpty();
    }

    @Test
    void aNameIsNoPseudonym() throws IOException {
        Run run = drill(LINES, "--learner", "Anna Heron");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).contains("pseudonym");
    }

    @Test
    void aCaseFileThatTheRulesDoNotReachIsRefused() {
        Run run = Run.of(
                "drill", "--file", Run.ROOT.resolve("cases/published/p029.yaml").toString(), "--plain");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).contains("Not fit to practise on");
    }

    @Test
    void anExamIsSatSealedAndMarkedTogether() throws IOException {
        String exam = directory.resolve("spring.json").toString();
        assertThat(Run.of("drill", "exam", "new", exam, "--cases", "8,13", "--minutes", "30")
                        .code())
                .isZero();
        List<String> careful = new java.util.ArrayList<>(LINES);
        careful.addAll(List.of("urgency manage-here", "commit"));
        Run sat = Run.of(
                "drill",
                "exam",
                "sit",
                exam,
                "--learner",
                "heron",
                "--script",
                script(careful).toString());
        assertThat(sat.err()).isEmpty();
        assertThat(sat.out())
                .contains("Exam, case 1 of 2. Time runs until ", "Exam, case 2 of 2. ")
                .contains("Handed in: 2 of 2")
                .doesNotContain("Score")
                .doesNotContain("Made from");
        Run.of(
                "drill",
                "exam",
                "sit",
                exam,
                "--learner",
                "plover",
                "--script",
                script(List.of("urgency urgent", "commit", "urgency routine-referral", "commit"))
                        .toString());
        Path heron = directory.resolve("spring-heron.sheet.json");
        Path plover = directory.resolve("spring-plover.sheet.json");
        Run results = Run.of("drill", "exam", "results", exam, heron.toString(), plover.toString());
        assertThat(results.code()).isZero();
        assertThat(results.out().lines()).hasSize(5).allSatisfy(line -> assertThat(
                        line.chars().filter(c -> c == ',').count())
                .isEqualTo(14));
        assertThat(Run.of("drill", "exam", "items", exam, heron.toString(), plover.toString())
                        .out())
                .startsWith("case,condition,difficulty_word,difficulty,deviation,discrimination")
                .contains("alpha,");
        Files.writeString(heron, Files.readString(heron).replace("manage-here", "emergency"));
        Run changed = Run.of("drill", "exam", "results", exam, heron.toString());
        assertThat(changed.code()).isEqualTo(1);
        assertThat(changed.out()).contains("broken");
        assertThat(Run.of("drill", "exam", "sit", exam, "--learner", "heron").err())
                .contains("handed in");
    }

    @Test
    void aSheetNotHandedInStaysSealed() throws IOException {
        String exam = directory.resolve("spring.json").toString();
        Run.of("drill", "exam", "new", exam, "--cases", "8,13", "--minutes", "30");
        Run.of(
                "drill",
                "exam",
                "sit",
                exam,
                "--learner",
                "heron",
                "--script",
                script(List.of("quit")).toString());
        Run results = Run.of(
                "drill",
                "exam",
                "results",
                exam,
                directory.resolve("spring-heron.sheet.json").toString());
        assertThat(results.code()).isEqualTo(1);
        assertThat(results.err()).contains("not handed in yet");
    }
}
