package org.gerdy.cli.bench;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.Options;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.openjdk.jmh.runner.options.VerboseMode;

/**
 * Runs every benchmark and prints medians and ratios. Each round runs all of them one after the other, and a ratio is
 * taken within its round, so that a machine that drifts or is shared moves both sides.
 */
public final class Benchmarks {
    private static final int ROUNDS = 3;

    private Benchmarks() {}

    /** Runs them. */
    public static void main(String[] args) throws Exception {
        System.out.println("Java " + System.getProperty("java.runtime.version") + ", "
                + Runtime.getRuntime().availableProcessors() + " processors, "
                + CaseFiles.root().resolve("cases"));
        new StartTimes().run();
        Map<String, List<Double>> times = new LinkedHashMap<>();
        for (int round = 0; round < ROUNDS; round++) {
            for (RunResult result : round()) {
                String name = result.getPrimaryResult().getLabel();
                times.computeIfAbsent(name, ignored -> new ArrayList<>())
                        .add(result.getPrimaryResult().getStatistics().getPercentile(50));
            }
        }
        Ratios.print(
                "One case, warm, on one core",
                "us",
                times,
                List.of("handWritten", "rulesTheOrdinaryWay", "triageOnContainer"));
    }

    private static Collection<RunResult> round() throws RunnerException {
        Options options = new OptionsBuilder()
                .include(TriageBenchmark.class.getName())
                .forks(1)
                .warmupIterations(3)
                .warmupTime(TimeValue.seconds(2))
                .measurementIterations(3)
                .measurementTime(TimeValue.seconds(1))
                .jvmArgs("-XX:+UseSerialGC", "-Xmx1g", "-Dgerdy.root=" + CaseFiles.root())
                .verbosity(VerboseMode.SILENT)
                .build();
        return new Runner(options).run();
    }
}
