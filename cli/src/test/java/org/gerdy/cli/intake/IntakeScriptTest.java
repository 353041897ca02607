package org.gerdy.cli.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.gerdy.cli.Main;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** The intake as plain lines. */
class IntakeScriptTest {
    @TempDir
    Path directory;

    private record Ran(int code, String out, String err) {}

    private static Ran run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = new CommandLine(new Main());
        line.setOut(new PrintWriter(out, true));
        line.setErr(new PrintWriter(err, true));
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setExecutionExceptionHandler((exception, command, parsed) -> {
            err.write(String.valueOf(exception.getMessage()));
            return 1;
        });
        int code = line.execute(arguments);
        return new Ran(code, out.toString(), err.toString());
    }

    private Ran script(Path file, String... lines) throws Exception {
        Path script = directory.resolve("script.txt");
        Files.write(script, List.of(lines));
        return replayed(file, script);
    }

    private static Ran replayed(Path file, Path script, String... more) {
        List<String> words = new ArrayList<>(
                List.of("intake", file.toString(), "--side=left", "--visit=2026-09-14", "--script=" + script));
        words.addAll(List.of(more));
        return run(words.toArray(String[]::new));
    }

    @Test
    void answersByLinesStandInTheCaseFile() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(file, "34", "n", "y", "# a remark of the script", "n", "q");
        assertThat(ran.code()).isZero();
        assertThat(ran.out()).contains("Kept: age 34 years.").contains("Kept: four-steps-now present.");
        assertThat(Files.readString(file)).isEqualTo("""
                gerdy: 1
                case: runner
                visits:
                  - date: 2026-09-14
                    side: left
                    findings:
                      age: 34 years
                      acute-injury: absent
                      four-steps-now: present
                      systemic-symptoms: absent
                      chest-symptoms: absent
                      foot-cold-pale: absent
                      pain-out-of-proportion: absent
                      saddle-or-sphincter-change: absent
                """);
        assertThat(directory.toFile().list()).contains("runner.yaml").doesNotContain(".runner.yaml.saving");
    }

    @Test
    void anArrivingRedFlagInterruptsAtOnceWithWhatToDoAndTheIntakeCanGoOn() throws Exception {
        Ran ran = script(directory.resolve("runner.yaml"), "34", "n", "n", "g", "n", "q");
        assertThat(ran.out().indexOf("RED FLAG"))
                .isGreaterThan(ran.out().indexOf("Kept: four-steps-now absent."))
                .isPositive();
        assertThat(ran.out()).contains("Do now: ").contains("Kept: saddle-or-sphincter-change absent.");
        assertThat(ran.code()).isZero();
    }

    @Test
    void theIntakeCanBeClosedWithTheReferralLetterToAChosenServiceAndNoLetterIsReplaced() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(file, "34", "n", "n", "t", "emergency");
        assertThat(ran.code()).isZero();
        Path letter = directory.resolve("runner-letter-emergency.txt");
        assertThat(Files.readString(letter))
                .isEqualTo(run("letter", file.toString(), "--to", "emergency").out())
                .contains("To: Emergency department")
                .contains("same-day")
                .contains("34 years");
        Files.writeString(letter, "changed by hand");
        script(file, "f", "t", "1");
        assertThat(Files.readString(letter)).isEqualTo("changed by hand");
        assertThat(directory.resolve("runner-letter-emergency-2.txt")).exists();
    }

    @Test
    void oneOfSeveralQuestionsOnAScreenIsAnsweredByItsNumberAndTheOthersAreAskedAgain() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(file, "34", "n", "y", "3", "g", "q");
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("Is any of these 5 present?")
                .contains("Kept: foot-cold-pale left present.")
                .contains("Possible acute limb ischaemia")
                .contains("Is any of these 4 present?");
        assertThat(Files.readString(file)).contains("foot-cold-pale: present").doesNotContain("chest-symptoms");
    }

    @Test
    void severalQuestionsOnAScreenCanBePutOffOneOrAllAndAskedOneByOne() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran one = script(file, "34", "n", "y", "l", "3", "n", "q");
        assertThat(one.out()).contains("Put off: foot-cold-pale.").contains("(pain-site)");
        assertThat(Files.readString(file)).contains("chest-symptoms: absent").doesNotContain("foot-cold-pale");
        Ran all = script(directory.resolve("all.yaml"), "34", "n", "y", "l", "l", "q");
        assertThat(all.out()).contains("Put off: 5 questions.");
        Ran apart = script(directory.resolve("apart.yaml"), "34", "n", "y", "i", "n", "n", "u", "q");
        assertThat(apart.code()).isZero();
        assertThat(apart.out()).contains("(systemic-symptoms)").contains("(chest-symptoms)");
        assertThat(Files.readString(directory.resolve("apart.yaml"))).contains("foot-cold-pale: unable");
    }

    @Test
    void aFlagThatRisesInterruptsAgainAndOneThatComesDownDoesNot() throws Exception {
        Ran ran = script(
                directory.resolve("runner.yaml"),
                "age 34",
                "acute-injury no",
                "dorsiflexion-weakness yes",
                "g",
                "dorsiflexion-grade 3",
                "g",
                "dorsiflexion-grade 4",
                "q");
        assertThat(ran.code()).isZero();
        assertThat(ran.out().split("RED FLAG\n|RED FLAGS\n", -1)).hasSize(3);
        String after = ran.out().substring(ran.out().indexOf("Kept: dorsiflexion-grade left 4"));
        assertThat(after).contains("RED FLAG, urgent").doesNotContain("Do now: ");
    }

    @Test
    void startingAgainGoesOnWhereItWasWithWhatWasPutOffStillPutOff() throws Exception {
        Path file = directory.resolve("runner.yaml");
        script(file, "34", "later", "y", "q");
        Ran again = script(file, "q");
        assertThat(again.out()).contains("Is any of these 5 present?").doesNotContain("(acute-injury)");
        assertThat(again.out()).contains("2 answers.");
    }

    @Test
    void numbersTakeUnitsSidesAndTrialsAndTheTrialsStandInTheNotes() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(
                file,
                "hip-abduction-strength left 110 118 115 right 121",
                "height 1.68 m",
                "leg-length-tape left 90 cm right 89,5 cm",
                "q");
        assertThat(ran.code()).isZero();
        assertThat(Files.readString(file))
                .contains("hip-abduction-strength: {left: 118 N, right: 121 N}")
                .contains("height: 1.68 m")
                .contains("leg-length-tape: {left: 90 cm, right: 89.5 cm}")
                .contains("Trials of hip-abduction-strength: left 110 N, 118 N, 115 N, kept 118 N.");
    }

    @Test
    void aLineThatMeansNothingIsToldAndAScriptWithOneEndsInError() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(file, "340", "perhaps", "34", "q");
        assertThat(ran.out()).contains("outside 0 to 110 years").contains("2 lines meant nothing.");
        assertThat(ran.code()).isEqualTo(1);
        assertThat(Files.readString(file)).contains("age: 34 years");
    }

    @Test
    void backShowsTheQuestionBeforeAndANewAnswerReplacesTheOld() throws Exception {
        Path file = directory.resolve("runner.yaml");
        script(file, "34", "n", "back", "y", "q");
        assertThat(Files.readString(file)).contains("acute-injury: present").contains("age: 34 years");
    }

    @Test
    void erasingTakesAnAnswerBack() throws Exception {
        Path file = directory.resolve("runner.yaml");
        script(file, "34", "n", "back", "erase", "q");
        assertThat(Files.readString(file)).contains("age: 34 years").doesNotContain("acute-injury");
    }

    @Test
    void searchJumpWhyPictureRemarkAndHelpAllComeBackToTheQuestion() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(
                file,
                "search",
                "worst pain",
                "g",
                "jump",
                "2",
                "1",
                "y",
                "g",
                "why",
                "g",
                "picture",
                "g",
                "remark",
                "seen after a race",
                "help",
                "g",
                "q");
        assertThat(ran.out())
                .contains("match 'worst pain'")
                .contains("Jump to a section")
                .contains("Why this is asked")
                .contains("The picture so far")
                .contains("Keys");
        assertThat(Files.readString(file)).contains("seen after a race");
    }

    @Test
    void thePictureHoldsUrgencyOpenQuestionsCandidatesAndContributingFactors() throws Exception {
        Ran none = script(directory.resolve("none.yaml"), "34", "n", "y", "picture", "g", "q");
        assertThat(none.out()).contains("Factors: none found; 0 of ");
        Ran ran = script(
                directory.resolve("runner.yaml"),
                "34",
                "n",
                "y",
                "n",
                "gradual-onset-load-increase yes",
                "picture",
                "g",
                "q");
        String picture =
                ran.out().substring(ran.out().indexOf("The picture so far")).replaceAll("\\s+", " ");
        assertThat(picture)
                .contains("Urgency: none raised yet; screening incomplete.")
                .contains("Open danger questions: ")
                .contains("Candidates (")
                .containsPattern(
                        "Factors: More distance, speed, hills or new ground before it\\s+began, contributes; 1 of ");
    }

    @Test
    void theEndOfTheInputEndsTheIntakeWithEverythingKept() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(file, "34", "n");
        assertThat(ran.code()).isZero();
        assertThat(ran.out()).contains("2 answers.");
        assertThat(Files.readString(file)).contains("acute-injury: absent");
    }

    @Test
    void aRecordedIntakeReplaysToTheSameFile() throws Exception {
        Path first = directory.resolve("first.yaml");
        Path script = directory.resolve("typed.txt");
        Path recording = directory.resolve("recording.txt");
        Files.write(script, List.of("34", "n", "y", "n", "2", "calf-swelling left no right yes", "g", "q"));
        replayed(first, script, "--record=" + recording);
        Path second = directory.resolve("second.yaml");
        Ran replayed = replayed(second, recording);
        assertThat(replayed.code()).isZero();
        assertThat(Files.readString(second)).isEqualTo(Files.readString(first).replace("case: first", "case: second"));
    }

    @ParameterizedTest
    @CsvSource({
        "age 34 35, takes one number",
        "age about 34, it takes a number in years",
        "knee-flexion 1e99, is in 'e99'; it takes degrees",
        "knee-flexion 90 cm, it takes degrees",
        "knee-flexion 300, outside 0 to 170 degrees",
        "hip-abduction-strength 12 lbf 14 kgf, is in 'lbf 14 kgf'; it takes N",
        "calf-swelling left yes left no, names the left side twice",
        "calf-swelling both yes left no, names the left side twice",
        "calf-sweling yes, Did you mean 'calf-swelling'?"
    })
    void whatFitsNoAnswerIsToldAndNothingIsKept(String line, String told) throws Exception {
        Path file = directory.resolve("runner.yaml");
        Ran ran = script(file, line, "q");
        assertThat(ran.out().replaceAll("\\s+", " ")).contains(told);
        assertThat(ran.code()).isEqualTo(1);
        assertThat(Files.readString(file)).doesNotContain("findings");
    }

    @Test
    void bothSidesAreAnsweredByOneWord() throws Exception {
        Path file = directory.resolve("runner.yaml");
        assertThat(script(file, "calf-swelling both no", "q").out())
                .contains("Kept: calf-swelling left absent right absent.");
    }

    @Test
    void aRecordingThatCannotBeWrittenIsToldBeforeTheFirstQuestion() throws Exception {
        Path script = directory.resolve("script.txt");
        Files.write(script, List.of("34", "q"));
        Ran ran = run(
                "intake",
                directory.resolve("runner.yaml").toString(),
                "--side=left",
                "--script=" + script,
                "--record=" + directory.resolve("nowhere").resolve("record.txt"));
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err() + ran.out())
                .contains("choose a place that can be written")
                .doesNotContain("Kept:");
    }

    @Test
    void aRecordedIntakeReplaysThroughItsRedFlags() throws Exception {
        Path recording = directory.resolve("recording.txt");
        Path script = directory.resolve("script.txt");
        Files.write(script, List.of("34", "n", "four-steps-now no", "g", "calf-swelling yes", "g", "limp no", "q"));
        Path first = directory.resolve("runner.yaml");
        Path second = directory.resolve("again").resolve("runner.yaml");
        Files.createDirectories(second.getParent());
        replayed(first, script, "--record=" + recording);
        Ran again = replayed(second, recording);
        assertThat(again.code()).isZero();
        assertThat(again.out()).contains("RED FLAG");
        assertThat(Files.readString(second)).isEqualTo(Files.readString(first));
    }

    @Test
    void anAnswerThatDoesNotFitLeavesTheRedFlagInSight() throws Exception {
        Ran ran = script(directory.resolve("runner.yaml"), "34", "n", "n", "calf-swelling perhaps", "q");
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.out().lastIndexOf("RED FLAG")).isGreaterThan(ran.out().indexOf("calf-swelling perhaps"));
    }

    @Test
    void aFaultyFileIsRefusedAndLeftAsItIs() throws Exception {
        Path file = directory.resolve("broken.yaml");
        Files.writeString(file, "gerdy: 1\ncase: broken\nvisits: none\n");
        Ran ran = script(file, "34");
        assertThat(ran.code()).isEqualTo(1);
        assertThat(Files.readString(file)).isEqualTo("gerdy: 1\ncase: broken\nvisits: none\n");
    }

    @Test
    void whatIfTellsTheEffectOfAChangedAnswer() {
        String demo = Path.of(System.getProperty("gerdy.root"), "cases", "demo", "first-visit.yaml")
                .toString();
        Ran ran = run("what-if", demo, "calf-swelling=present");
        assertThat(ran.code()).isZero();
        assertThat(ran.out()).contains("Urgency: manage-here, then same-day").contains("Raised:");
        assertThat(run("what-if", demo).out())
                .contains("Answers given that carry the result")
                .contains("chest-symptoms absent, if present: emergency")
                .contains("What would allow manage-here");
        assertThat(run("what-if", demo, "calf-sweling=present").err()).contains("did you mean 'calf-swelling'?");
    }
}
