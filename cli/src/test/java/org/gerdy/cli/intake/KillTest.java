package org.gerdy.cli.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
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
        // Age, injury, steps, what cannot wait, place of the pain; then the screens on the way to the end.
        List<String> lines = new ArrayList<>(List.of("34", "n", "y", "n", "1"));
        lines.addAll(Collections.nCopies(8, "n"));
        lines.add("1");
        lines.addAll(Collections.nCopies(4, "n"));
        lines.addAll(List.of("3", "1", "n", "n"));
        Path script = directory.resolve("script.txt");
        Files.write(script, lines);
        Random random = new Random(914);
        int answersKept = 0;
        int cutShort = 0;
        for (int kill = 0; kill < KILLS; kill++) {
            Path file = directory.resolve("run-" + kill + ".yaml");
            int afterLine = random.nextInt(26);
            Path shown = directory.resolve("shown-" + kill + ".txt");
            Process process = new ProcessBuilder(Program.command(
                            "intake", file.toString(), "--side=left", "--visit=2026-09-14", "--script=" + script))
                    .redirectErrorStream(true)
                    .redirectOutput(shown.toFile())
                    .start();
            while (process.isAlive() && kept(shown).size() <= afterLine) {
                TimeUnit.MILLISECONDS.sleep(2);
            }
            TimeUnit.MICROSECONDS.sleep(random.nextInt(20_000));
            cutShort += process.isAlive() ? 1 : 0;
            process.destroyForcibly();
            assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
            List<String> kept = kept(shown);
            CaseFile there = gerdy.read(file);
            Observations known = Observations.of(gerdy.knowledge().terms(), there, there.latest());
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

    /** The answers shown as kept so far; a line cut in the middle was not shown. */
    private static List<String> kept(Path shown) throws IOException {
        String text = Files.readString(shown);
        return text.substring(0, text.lastIndexOf('\n') + 1)
                .lines()
                .filter(line -> line.startsWith("Kept: "))
                .map(line -> line.substring(6).split(" ")[0])
                .toList();
    }
}
