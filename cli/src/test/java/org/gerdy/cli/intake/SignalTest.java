package org.gerdy.cli.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The real program told to end, and two of them on one case. */
class SignalTest {
    private static final long PATIENCE_SECONDS = 120;

    @TempDir
    Path directory;

    private final List<Process> started = new ArrayList<>();

    @AfterEach
    void endWhatWasStarted() throws InterruptedException {
        for (Process process : started) {
            process.destroyForcibly().waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS);
        }
    }

    private Process start(Path shown, String... arguments) throws IOException {
        Process process = new ProcessBuilder(Program.command(arguments))
                .redirectErrorStream(true)
                .redirectOutput(shown.toFile())
                .start();
        started.add(process);
        return process;
    }

    private static void type(Process process, String lines) throws IOException {
        OutputStream keys = process.getOutputStream();
        keys.write(lines.getBytes(StandardCharsets.UTF_8));
        keys.flush();
    }

    private static void awaited(Path shown, String text) throws Exception {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
        while (!Files.readString(shown).contains(text) && System.nanoTime() < end) {
            TimeUnit.MILLISECONDS.sleep(20);
        }
        assertThat(Files.readString(shown)).contains(text);
    }

    @ParameterizedTest
    @ValueSource(strings = {"TERM", "HUP", "INT"})
    void aSignalEndsTheIntakeWithEveryAnswerKeptAndTheCaseFreeForTheNextWindow(String signal) throws Exception {
        Assumptions.assumeTrue(Files.isExecutable(Path.of("/bin/sh")), "there are no signals to send here");
        Assumptions.assumeFalse(ignoredHere(signal), "whoever started this ignores the signal, and so does a program");
        Path file = directory.resolve("runner.yaml");
        Path shown = directory.resolve("shown.txt");
        Process first = start(shown, "intake", file.toString(), "--side=left", "--visit=2026-09-14");
        type(first, "34\nn\nlater\n");
        awaited(shown, "Put off: four-steps-now.");
        new ProcessBuilder("/bin/sh", "-c", "kill -" + signal + " " + first.pid())
                .start()
                .waitFor();
        assertThat(first.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)).isTrue();
        assertThat(Files.readString(shown)).doesNotContain("Exception");
        assertThat(Files.readString(file)).contains("age: 34 years").contains("acute-injury: absent");

        Path again = directory.resolve("again.txt");
        Process second = start(again, "intake", file.toString());
        type(second, "q\n");
        assertThat(second.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)).isTrue();
        assertThat(Files.readString(again))
                .contains("Is any of these 5 present?")
                .contains("2 answers.")
                .doesNotContain("(four-steps-now)");
    }

    /** Whether programs started from here come to life ignoring the signal, as below nohup. */
    private static boolean ignoredHere(String signal) throws IOException {
        Path status = Path.of("/proc/self/status");
        if (!Files.isReadable(status)) {
            return false;
        }
        int number = Map.of("HUP", 1, "INT", 2, "TERM", 15).getOrDefault(signal, 0);
        return Files.readString(status)
                .lines()
                .filter(line -> line.startsWith("SigIgn:"))
                .anyMatch(line -> (Long.parseUnsignedLong(line.substring(7).strip(), 16) >> (number - 1) & 1) == 1);
    }

    @Test
    void aSecondWindowOnTheCaseIsRefusedAndTheFirstGoesOn() throws Exception {
        Path file = directory.resolve("runner.yaml");
        Path shown = directory.resolve("shown.txt");
        Process first = start(shown, "intake", file.toString(), "--side=left", "--visit=2026-09-14");
        type(first, "34\n");
        awaited(shown, "Kept: age 34 years.");
        for (int i = 0; i < 2; i++) {
            Path refused = directory.resolve("refused-" + i + ".txt");
            Process second = start(refused, "intake", file.toString());
            assertThat(second.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)).isTrue();
            assertThat(second.exitValue()).isEqualTo(1);
            assertThat(Files.readString(refused)).contains("Another window has this case open.");
        }
        type(first, "n\nq\n");
        assertThat(first.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)).isTrue();
        assertThat(first.exitValue()).isZero();
        assertThat(Files.readString(file)).contains("acute-injury: absent");
    }
}
