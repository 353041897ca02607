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

/** Benchmarks of {@link OneCase}, run by JMH one after another, each in a process of its own, round by round. */
final class Rounds {
    private static final int ROUNDS = 3;
    private static final int WARMING = 8;
    private static final int MEASURED = 3;

    private Rounds() {}

    /**
     * For each way its microseconds of processor time for one case, one number a round.
     *
     * @param cases the cases, as {@link OneCase} names them
     * @param ways names to print, each with the method that is measured
     */
    static Map<String, List<Double>> microseconds(String cases, Map<String, String> ways) throws RunnerException {
        Options options = new OptionsBuilder()
                .include(OneCase.class.getName() + "\\.(" + String.join("|", ways.values()) + ")$")
                .param("cases", cases)
                .forks(1)
                .warmupIterations(WARMING)
                .warmupTime(TimeValue.seconds(1))
                .measurementIterations(MEASURED)
                .measurementTime(TimeValue.seconds(1))
                .shouldFailOnError(true)
                .verbosity(VerboseMode.SILENT)
                .build();
        Map<String, List<Double>> times = new LinkedHashMap<>();
        ways.keySet().forEach(name -> times.put(name, new ArrayList<>()));
        for (int round = 0; round < ROUNDS; round++) {
            Collection<RunResult> results = new Runner(options).run();
            ways.forEach((name, method) -> results.stream()
                    .filter(result -> result.getParams().getBenchmark().endsWith("." + method))
                    .forEach(result -> times.get(name).add(count(result, "nanos") / 1e3 / count(result, "cases"))));
        }
        return times;
    }

    private static double count(RunResult result, String counter) {
        return result.getSecondaryResults().get(counter).getScore();
    }
}
