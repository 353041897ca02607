package org.gerdy.cli.bench;

import java.io.File;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Whole processes, from their start to the printed page, run in turn. */
final class StartTimes {
    private static final int ROUNDS = 11;

    private final Path root = CaseFiles.root();
    private final String java =
            Path.of(System.getProperty("java.home"), "bin", "java").toString();
    private final String page = root.resolve("cases/demo/first-visit.yaml").toString();

    /** Runs every program in turn, the first round uncounted, and prints the table. */
    void run() throws IOException, InterruptedException {
        Map<String, List<Double>> times = new LinkedHashMap<>();
        for (int round = 0; round <= ROUNDS; round++) {
            for (Map.Entry<String, List<String>> program : programs().entrySet()) {
                double seconds = seconds(program.getValue());
                if (round > 0) {
                    times.computeIfAbsent(program.getKey(), ignored -> new ArrayList<>())
                            .add(seconds);
                }
            }
        }
        Ratios.print("Start to printed page", "s", times, List.of("ordinary start", "empty program"));
    }

    private Map<String, List<String>> programs() {
        String classPath = Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
                .map(entry -> Path.of(entry).toAbsolutePath().toString())
                .collect(Collectors.joining(File.pathSeparator));
        String bench = "org.gerdy.cli.bench.";
        Map<String, List<String>> programs = new LinkedHashMap<>();
        programs.put("ordinary start", List.of(java, "-cp", classPath, bench + "OrdinaryStart", page));
        programs.put(
                "ordinary start, serial collection, first compiler tier",
                List.of(
                        java,
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        classPath,
                        bench + "OrdinaryStart",
                        page));
        programs.put(
                "direct start, no archive",
                List.of(
                        java,
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        classPath,
                        "org.gerdy.cli.Main",
                        "triage",
                        page));
        programs.put("cli/gerdy", List.of(root.resolve("cli/gerdy").toString(), "triage", page));
        programs.put("empty program", List.of(java, "-XX:+UseSerialGC", "-cp", classPath, bench + "EmptyProgram"));
        return programs;
    }

    private double seconds(List<String> command) throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder(command);
        builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
        builder.environment().put("GERDY_NO_BUILD", "1");
        builder.redirectOutput(ProcessBuilder.Redirect.DISCARD);
        builder.redirectError(ProcessBuilder.Redirect.DISCARD);
        long start = System.nanoTime();
        int code = builder.start().waitFor();
        if (code != 0) {
            throw new IllegalStateException("Exit code " + code + " of " + command);
        }
        return (System.nanoTime() - start) / 1e9;
    }
}
