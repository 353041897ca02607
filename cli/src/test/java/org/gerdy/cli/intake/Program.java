package org.gerdy.cli.intake;

import java.io.File;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The real program as a process of its own. */
final class Program {
    private Program() {}

    static List<String> command(String... arguments) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-Xshare:auto",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"))
                        .replace(File.pathSeparator + File.pathSeparator, File.pathSeparator),
                "org.gerdy.cli.Main"));
        command.addAll(List.of(arguments));
        return command;
    }
}
