package org.gerdy.cli.intake;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.gerdy.engine.casefile.MendableException;
import org.jline.terminal.TerminalBuilder;

/** Chooses where screens are shown: a terminal, plain lines, or a script played back. */
public final class Fronts {
    private Fronts() {}

    /**
     * Opens the front that fits.
     *
     * @param plain plain lines even on a terminal
     * @param script a file of lines to play back
     */
    public static Front open(PrintWriter out, boolean plain, Optional<Path> script)
            throws IOException, MendableException {
        if (script.isPresent()) {
            if (!Files.isRegularFile(script.get())) {
                throw new MendableException(script.get().toString(), "There is no such file; check the path.");
            }
            return new LineFront(Files.newBufferedReader(script.get(), StandardCharsets.UTF_8), out, true);
        }
        String kind = System.getenv("TERM");
        boolean seen = onTerminal();
        if (plain || !seen || kind == null || kind.equals("dumb")) {
            return new LineFront(
                    new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8)), out, !seen);
        }
        String colourless = System.getenv("NO_COLOR");
        return new TerminalFront(
                TerminalBuilder.builder()
                        .system(true)
                        .dumb(false)
                        .encoding(StandardCharsets.UTF_8)
                        .build(),
                colourless == null || colourless.isEmpty());
    }

    /** How many lines of this front meant nothing; 0 where a person types. */
    public static int misunderstood(Front front) {
        return front instanceof LineFront line && line.echoes() ? line.misunderstood() : 0;
    }

    /** Whether a person sits at both ends. Newer Java gives a console even to a pipe and says so only when asked. */
    @SuppressWarnings("SystemConsoleNull")
    private static boolean onTerminal() {
        Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (NoSuchMethodException e) {
            return true;
        } catch (ReflectiveOperationException e) {
            return false;
        }
    }
}
