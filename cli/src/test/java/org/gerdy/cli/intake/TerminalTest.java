package org.gerdy.cli.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The real program in a real terminal, driven by keys. */
class TerminalTest {
    private static final long PATIENCE_MILLIS = 60_000;

    @TempDir
    Path directory;

    /** Of its own for every test: one that is ending would take the next session with it. */
    private final String server = "gerdy-test-" + ProcessHandle.current().pid() + "-" + System.nanoTime();

    @BeforeEach
    void tmuxIsThere() {
        boolean there;
        try {
            there = tmux("-V").startsWith("tmux");
        } catch (IOException e) {
            there = false;
        }
        Assumptions.assumeTrue(there, "tmux is not installed; the terminal is not tested here");
    }

    @AfterEach
    void close() throws IOException {
        tmux("-L", server, "kill-server");
    }

    private static String tmux(String... arguments) throws IOException {
        List<String> command = new ArrayList<>(List.of("tmux"));
        command.addAll(List.of(arguments));
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        try {
            process.waitFor(10, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return out;
    }

    private void start(int columns, int rows, String environment, String... arguments) throws IOException {
        startIn("0", columns, rows, environment, arguments);
    }

    private void startIn(String session, int columns, int rows, String environment, String... arguments)
            throws IOException {
        Path starter = directory.resolve("start.sh");
        String command = String.join(
                " ",
                Program.command(arguments).stream()
                        .map(one -> "'" + one.replace("'", "'\\''") + "'")
                        .toList());
        Files.writeString(starter, environment + " " + command + "\necho ended with $?\nsleep 60\n");
        tmux(
                "-L",
                server,
                "-f",
                "/dev/null",
                "new-session",
                "-d",
                "-s",
                session,
                "-x",
                Integer.toString(columns),
                "-y",
                Integer.toString(rows),
                "sh " + starter);
    }

    private String screen() throws IOException {
        return tmux("-L", server, "capture-pane", "-p");
    }

    private String awaited(String text) throws Exception {
        long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(PATIENCE_MILLIS);
        String screen = screen();
        while (!screen.contains(text) && System.nanoTime() < end) {
            TimeUnit.MILLISECONDS.sleep(100);
            screen = screen();
        }
        assertThat(screen).contains(text);
        return screen;
    }

    private void press(String... keys) throws IOException {
        List<String> command = new ArrayList<>(List.of("-L", server, "send-keys"));
        command.addAll(List.of(keys));
        tmux(command.toArray(String[]::new));
    }

    @Test
    void longWorkSaysHowFarItHasComeWithinTheWindowAndLeavesNothingBehind() throws Exception {
        start(80, 24, "", "simulate", "--cases", "1500", "--perturb", "1");

        String working = awaited("/3000");
        assertThat(working.lines().filter(line -> !line.isBlank()))
                .singleElement()
                .asString()
                .startsWith("Patients")
                .hasSizeLessThan(80);
        assertThat(awaited("ended with 0"))
                .contains("Expected calibration error")
                .doesNotContain("/3000");
    }

    @Test
    void longWorkThatNobodyWatchesSaysNothingOfHowFarItHasCome() throws Exception {
        Path said = directory.resolve("said");
        start(80, 24, "exec 2>" + said + ";", "simulate", "--cases", "50", "--perturb", "0");

        awaited("ended with 0");
        assertThat(said).isEmptyFile();
    }

    @Test
    void everyScreenOfAnIntakeSaysTheSameInASmallAndALargeWindowAndWithoutColour() throws Exception {
        List<String> small = walked(80, 24, "TERM=xterm-256color");
        List<String> large = walked(120, 40, "TERM=xterm-256color");
        List<String> plain = walked(80, 24, "NO_COLOR=1");
        assertThat(small).hasSizeGreaterThan(8);
        assertThat(plain).as("not a character differs without colour").isEqualTo(small);
        assertThat(large.stream().map(TerminalTest::words).toList())
                .as("the same words, however wide the window")
                .isEqualTo(small.stream().map(TerminalTest::words).toList());
    }

    /** The words of a screen, without the rules and however the lines are broken. */
    private static String words(String screen) {
        return screen.lines()
                .filter(line -> !line.startsWith("-----"))
                .flatMap(line -> Pattern.compile("\\s+").splitAsStream(line))
                .filter(word -> !word.isEmpty())
                .collect(Collectors.joining(" "));
    }

    /** Walks an intake by keys; every screen fits its window. Returns the screens as shown. */
    private List<String> walked(int columns, int rows, String environment) throws Exception {
        List<String> screens = new ArrayList<>();
        Path file = directory.resolve(columns + environment.substring(0, 2)).resolve("runner.yaml");
        Files.createDirectories(file.getParent());
        start(columns, rows, environment, "intake", file.toString(), "--visit=2026-09-14");
        screens.add(settled("Which side hurts?", columns, rows));
        press("l");
        screens.add(settled("(age)", columns, rows));
        press("3", "4", "Enter");
        String injury = settled("(acute-injury)", columns, rows);
        assertThat(injury).contains("Kept: age 34 years.").contains("y yes   n no   u unable");
        screens.add(injury);
        press("n");
        screens.add(settled("(four-steps-now)", columns, rows));
        press("n");
        String flag = settled("RED FLAG\n", columns, rows);
        assertThat(flag).contains("Do now:").contains("g go on");
        assertThat(colours()).as("no colour carries anything").isEmpty();
        screens.add(flag);
        press("g");
        String several = settled("Is any of these 5 present?", columns, rows);
        assertThat(several)
                .as("a key that answers all of them with all of them in sight")
                .doesNotContain("page 1 of");
        screens.add(several);
        press("w");
        settled("Why this is asked", columns, rows);
        press("g");
        settled("Is any of these 5 present?", columns, rows);
        press("p");
        settled("The picture so far", columns, rows);
        press("g");
        settled("Is any of these 5 present?", columns, rows);
        press("s");
        screens.add(settled("Search:", columns, rows));
        press("pain-site", "Enter");
        screens.add(settled("match", columns, rows));
        press("1");
        settled("(pain-site)", columns, rows);
        press("2");
        assertThat(Files.readString(file)).contains("four-steps-now: absent");
        screens.add(settled("Kept: pain-site left lateral-joint-line.", columns, rows));
        press("t");
        screens.add(settled("To whom does the letter go?", columns, rows));
        press("g", "q");
        awaited("ended with 0");
        assertThat(Files.readString(file)).contains("pain-site: lateral-joint-line");
        tmux("-L", server, "kill-server");
        return screens;
    }

    /** The screen once it shows this and holds still; it fits its window. */
    private String settled(String text, int columns, int rows) throws Exception {
        String before = "";
        String screen = awaited(text);
        while (!screen.equals(before)) {
            before = screen;
            TimeUnit.MILLISECONDS.sleep(150);
            screen = screen();
        }
        fits(screen, columns, rows);
        return screen;
    }

    /** Every escape sequence that sets a colour; bold is none. */
    private List<String> colours() throws IOException {
        List<String> found = new ArrayList<>();
        java.util.regex.Matcher matcher =
                Pattern.compile("\u001B\\[([0-9;]*)m").matcher(tmux("-L", server, "capture-pane", "-p", "-e"));
        while (matcher.find()) {
            for (String code : matcher.group(1).split(";")) {
                int number = code.isEmpty() ? 0 : Integer.parseInt(code);
                // 39 and 49 put the terminal's own colours back.
                if (number >= 30 && number != 39 && number != 49) {
                    found.add(code);
                }
            }
        }
        return found;
    }

    private static void fits(String screen, int columns, int rows) {
        List<String> lines = screen.lines().toList();
        assertThat(lines).hasSizeLessThanOrEqualTo(rows);
        assertThat(lines).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(columns));
        assertThat(lines.stream().filter(line -> line.startsWith("-----")).count())
                .as("a rule above and below the body in\n%s", screen)
                .isGreaterThanOrEqualTo(2);
    }

    @Test
    void aWindowMadeLargerIsFilledAgainAndCtrlCEndsWithEverythingKept() throws Exception {
        Path file = directory.resolve("runner.yaml");
        start(80, 24, "", "intake", file.toString(), "--visit=2026-09-14", "--side=right");
        awaited("(age)");
        press("4", "1", "Enter");
        awaited("(acute-injury)");
        tmux("-L", server, "resize-window", "-x", "120", "-y", "40");
        fits(awaited("(acute-injury)"), 120, 40);
        press("C-c");
        awaited("ended with 0");
        assertThat(Files.readString(file)).contains("age: 41 years").contains("side: right");
        assertThat(screen()).contains("1 answer.");
    }

    @Test
    void severalQuestionsAreNotAnsweredWithNoneBeforeTheLastOfThemWasInSight() throws Exception {
        Path file = directory.resolve("runner.yaml");
        start(60, 18, "", "intake", file.toString(), "--visit=2026-09-14", "--side=right");
        awaited("(age)");
        press("4", "1", "Enter");
        awaited("(acute-injury)");
        press("n");
        awaited("(four-steps-now)");
        press("y");
        awaited("page 1 of");
        press("n");
        awaited("page 2 of");
        assertThat(Files.readString(file)).doesNotContain("chest-symptoms");
        String screen = screen();
        while (screen.contains("any of these 5")) {
            press("n");
            TimeUnit.MILLISECONDS.sleep(300);
            screen = screen();
        }
        assertThat(Files.readString(file)).contains("chest-symptoms: absent");
    }

    @Test
    void aTerminalClosedUnderTheIntakeEndsItAndTheNextWindowGoesOn() throws Exception {
        Path file = directory.resolve("runner.yaml");
        start(80, 24, "", "intake", file.toString(), "--visit=2026-09-14", "--side=right");
        awaited("(age)");
        press("4", "1", "Enter");
        awaited("(acute-injury)");
        // A second session keeps the server, so that the first is closed alone.
        tmux("-L", server, "new-session", "-d", "-s", "keeper", "sleep 300");
        tmux("-L", server, "kill-session", "-t", "0");
        long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(PATIENCE_MILLIS);
        String screen = "Another window";
        while (screen.contains("Another window") && System.nanoTime() < end) {
            tmux("-L", server, "kill-session", "-t", "again");
            startIn("again", 80, 24, "", "intake", file.toString());
            screen = "";
            while (!screen.contains("runner") && System.nanoTime() < end) {
                TimeUnit.MILLISECONDS.sleep(100);
                screen = tmux("-L", server, "capture-pane", "-p", "-t", "again");
            }
        }
        assertThat(screen).contains("(acute-injury)");
        assertThat(Files.readString(file)).contains("age: 41 years");
    }

    @Test
    void plainModeOnATerminalDrawsNothing() throws Exception {
        Path file = directory.resolve("runner.yaml");
        start(80, 40, "", "intake", file.toString(), "--visit=2026-09-14", "--side=right", "--plain");
        awaited("Number in years:");
        press("4", "1", "Enter");
        String screen = awaited("(acute-injury)");
        assertThat(screen).contains("Kept: age 41 years.").contains("(age)").doesNotContain("----------");
        press("q", "Enter");
        awaited("ended with 0");
    }
}
