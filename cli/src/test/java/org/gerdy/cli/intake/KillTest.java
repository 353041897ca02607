package org.gerdy.cli.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real program killed at random moments of scripted intakes. The other cuts of the two hundred are made inside the
 * save itself, by the test of the case store.
 */
class KillTest {
    private static final int KILLS = 20;

    @TempDir
    Path directory;

    @Test
    void noAnswerThatWasShownAsKeptIsMissingAfterAKill() throws Exception {
        Gerdy gerdy = LateralKnee.gerdy();
        List<String> lines = new ArrayList<>(List.of("34", "n", "y"));
        for (int i = 0; i < 24; i++) {
            lines.add("n");
        }
        Path script = directory.resolve("script.txt");
        Files.write(script, lines);
        Random random = new Random(914);
        int answersKept = 0;
        int cutShort = 0;
        for (int kill = 0; kill < KILLS; kill++) {
            Path file = directory.resolve("run-" + kill + ".yaml");
            int afterLine = random.nextInt(26);
            Process process = new ProcessBuilder(Program.command(
                            "intake", file.toString(), "--side=left", "--visit=2026-09-14", "--script=" + script))
                    .redirectErrorStream(true)
                    .start();
            List<String> kept = new ArrayList<>();
            try (BufferedReader out =
                    new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
                String line = out.readLine();
                while (line != null) {
                    if (line.startsWith("Kept: ")) {
                        kept.add(line.substring(6).split(" ")[0]);
                        if (kept.size() > afterLine && process.isAlive()) {
                            TimeUnit.MICROSECONDS.sleep(random.nextInt(20_000));
                            process.destroyForcibly();
                            cutShort++;
                        }
                    }
                    line = out.readLine();
                }
            }
            assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
            CaseFile there = gerdy.read(file);
            Observations known = Observations.of(gerdy.knowledge().catalogue(), there, there.latest());
            assertThat(known.recorded().keySet())
                    .as("kill %s after %s", kill, kept)
                    .containsAll(kept);
            answersKept += kept.size();
        }
        System.out.printf(
                "%d programs killed, %d answers shown as kept, none missing, every file readable%n",
                cutShort, answersKept);
        assertThat(cutShort).isPositive();
        assertThat(answersKept).isGreaterThan(KILLS * 3);
    }
}
