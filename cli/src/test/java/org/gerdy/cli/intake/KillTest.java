package org.gerdy.cli.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real program killed at random moments of scripted intakes, each intake several times over: it goes on with the file
 * the kill left. Cuts inside the save itself are made by the test of the case store.
 */
class KillTest {
    /** How often one intake is killed. */
    private static final int ROUNDS = 5;

    private static final int LINES = 80;

    private static final Gerdy GERDY = LateralKnee.gerdy();

    @TempDir
    Path directory;

    private record Tally(int killed, int kept) {}

    @Test
    void noAnswerThatWasShownAsKeptIsMissingAfterAKill() throws Exception {
        int kills = Integer.getInteger("gerdy.kills");
        ExecutorService together =
                Executors.newFixedThreadPool(Math.max(1, Runtime.getRuntime().availableProcessors()));
        try {
            List<Future<Tally>> intakes = new ArrayList<>();
            for (int intake = 0; intake < kills / ROUNDS; intake++) {
                int seed = intake;
                intakes.add(together.submit(() -> killedAgainAndAgain(seed)));
            }
            int killed = 0;
            int kept = 0;
            for (Future<Tally> intake : intakes) {
                killed += intake.get().killed();
                kept += intake.get().kept();
            }
            System.out.printf(
                    "%d programs killed while they ran, in %d intakes; %d answers shown as kept, none missing, every file"
                            + " readable%n",
                    killed, intakes.size(), kept);
            assertThat(killed).isEqualTo(kills);
            assertThat(kept).isGreaterThan(kills * 3);
        } finally {
            together.shutdownNow();
        }
    }

    private Tally killedAgainAndAgain(int seed) throws Exception {
        Random random = new Random(914 + seed);
        List<String> lines = lines(random);
        Path file = directory.resolve("run-" + seed + ".yaml");
        Map<String, String> expected = new LinkedHashMap<>();
        int killed = 0;
        int done = 0;
        for (int round = 0; round < ROUNDS; round++) {
            Path script = directory.resolve("script-" + seed + "-" + round + ".txt");
            Path shown = directory.resolve("shown-" + seed + "-" + round + ".txt");
            Files.write(script, lines.subList(done, lines.size()));
            Process process = new ProcessBuilder(Program.command(
                            "intake", file.toString(), "--side=left", "--visit=2026-09-14", "--script=" + script))
                    .redirectErrorStream(true)
                    .redirectOutput(shown.toFile())
                    .start();
            int after = random.nextInt(LINES / ROUNDS);
            while (process.isAlive() && kept(shown).size() <= after) {
                TimeUnit.MILLISECONDS.sleep(2);
            }
            TimeUnit.MICROSECONDS.sleep(random.nextInt(20_000));
            killed += process.isAlive() ? 1 : 0;
            process.destroyForcibly();
            assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
            List<String> kept = kept(shown);
            assertThat(kept)
                    .as("what was kept is what was typed, in order")
                    .isEqualTo(lines.subList(done, done + kept.size()));
            kept.forEach(line -> note(line, expected));
            done += kept.size();
            Map<String, String> inFlight = new LinkedHashMap<>(expected);
            if (done < lines.size()) {
                note(lines.get(done), inFlight);
            }
            CaseFile there = GERDY.read(file);
            Observations known = Observations.of(GERDY.knowledge().terms(), there, there.latest());
            assertThat(told(known))
                    .as("intake %s, kill %s: what was shown, and at most the one answer under way", seed, round)
                    .isIn(expected, inFlight);
        }
        return new Tally(killed, done);
    }

    /** Answers by id, in random order, some of them taken back by a later one. */
    private static List<String> lines(Random random) {
        List<FindingDefinition> asked = GERDY.knowledge().catalogue().findings().stream()
                .filter(finding ->
                        finding.kind() == Kind.YES_NO && finding.onlyIf().isEmpty() && !finding.provocative())
                .toList();
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < LINES; i++) {
            // A few questions only, so that answers are changed as well as added.
            FindingDefinition finding = asked.get(random.nextInt(Math.min(30, asked.size())));
            lines.add(finding.id() + (random.nextBoolean() ? " yes" : " no"));
        }
        return lines;
    }

    private static void note(String line, Map<String, String> answers) {
        String[] words = line.split(" ");
        answers.put(words[0], words[1].equals("yes") ? "present" : "absent");
    }

    private static Map<String, String> told(Observations known) {
        Map<String, String> told = new LinkedHashMap<>();
        known.recorded()
                .forEach((id, recorded) ->
                        told.put(id, recorded.on(Side.LEFT).map(Answer::text).orElse("")));
        return told;
    }

    /** The answers shown as kept so far, as typed; a line cut in the middle was not shown. */
    private static List<String> kept(Path shown) throws IOException {
        String text = Files.readString(shown);
        return text.substring(0, text.lastIndexOf('\n') + 1)
                .lines()
                .filter(line -> line.startsWith("Kept: "))
                .map(line -> line.substring(6).split(" ")[0] + (line.endsWith(" present.") ? " yes" : " no"))
                .toList();
    }
}
