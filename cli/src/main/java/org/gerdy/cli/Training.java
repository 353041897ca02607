package org.gerdy.cli;

import java.io.PrintWriter;
import java.io.Writer;

/**
 * Runs the common commands over a case without printing, so that the virtual machine can note which classes they load.
 * The launcher does this once after a build.
 */
final class Training {
    private Training() {}

    /** Runs the commands over the case file {@code args[0]}. */
    public static void main(String[] args) {
        String file = args[0];
        String[][] commands = {
            {"triage", file},
            {"triage", "--format", "json", file},
            {"check", file},
            {"measure"},
            {"explain", file},
            {"--help"},
            {"no-such-command"}
        };
        for (String[] command : commands) {
            run(command);
        }
        // As the program itself ends.
        System.exit(0);
    }

    private static void run(String... command) {
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        int ignored = Main.run(nowhere, nowhere, command);
    }
}
