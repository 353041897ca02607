package org.gerdy.cli.bench;

import java.nio.file.Path;
import java.util.List;
import org.gerdy.cli.intake.IntakeTimes;

/**
 * Runs the benchmarks and prints their tables as Markdown. Within a table every way is taken in turn, round by round, and a
 * ratio is taken within its round, so that a machine that drifts or is shared moves both sides.
 */
public final class Benchmarks {
    private static final List<String> ALL = List.of("start", "case", "intake", "load", "batch");
    private static final int BATCH = 50_000;

    private Benchmarks() {}

    /** Runs those of {@code start case intake load batch} that are named, or all of them. */
    public static void main(String[] args) throws Exception {
        List<String> named =
                args.length == 0 ? ALL : List.of(String.join(" ", args).split(" "));
        System.out.println("Java " + System.getProperty("java.runtime.version") + ", "
                + Runtime.getRuntime().availableProcessors() + " processors");
        Path cases = CaseFiles.root().resolve("cases");
        for (String one : named) {
            switch (one) {
                case "start" -> new StartTimes().run();
                case "case" -> new CaseTimes().run();
                case "intake" -> IntakeTimes.run(cases.resolve("demo"), cases.resolve("teaching"));
                case "load" -> new LoadTimes().run();
                case "batch" -> new BatchTimes().run(Integer.getInteger("gerdy.bench.batch", BATCH));
                default -> throw new IllegalArgumentException(one + " is not one of " + ALL + ".");
            }
        }
    }
}
