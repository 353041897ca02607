package org.gerdy.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import org.gerdy.cli.bench.Watched.Took;
import org.openjdk.jmh.runner.RunnerException;

/** Triage of made patients as JSON lines: the whole program on many of them, and the parts of one. */
final class BatchTimes {
    private static final List<String> OPTIONS = List.of("-Xmx320m", "-XX:+UseSerialGC");

    /** Makes {@code cases} patients, assesses them all in a heap of 320 MB, and prints what each part takes. */
    void run(int cases) throws IOException, InterruptedException, RunnerException {
        Path directory = Files.createTempDirectory("gerdy-batch");
        Path in = directory.resolve("in.jsonl");
        Path few = directory.resolve("few.jsonl");
        try {
            Took made = Watched.run(OPTIONS, "simulate", "--cases", Integer.toString(cases), "--write", in.toString());
            try (Stream<String> lines = Files.lines(in)) {
                Files.write(few, lines.limit(Math.max(1, cases / 10)).toList());
            }
            Took small = batch(few);
            Took large = batch(in);
            int cores = Runtime.getRuntime().availableProcessors();
            System.out.println();
            System.out.println("| heap of 320 MB, " + cores + " cores | cases | clock, s | processor time, s |"
                    + " cases a second and core | peak memory of the process, MB |");
            System.out.println("|---|---|---|---|---|---|");
            row("`gerdy simulate --write`", cases, made);
            row("`gerdy triage --batch`", Math.max(1, cases / 10), small);
            row("`gerdy triage --batch`", cases, large);
            parts(in);
        } finally {
            Files.deleteIfExists(in);
            Files.deleteIfExists(few);
            Files.delete(directory);
        }
    }

    /** The assessments are counted as they come and not kept: a million of them take more than a hundred GB. */
    private static Took batch(Path in) throws IOException, InterruptedException {
        AtomicLong answers = new AtomicLong();
        Took took = Watched.run(
                OPTIONS,
                line -> answers.addAndGet(line.startsWith("{\"line\"") ? 0 : 1),
                "triage",
                "--batch",
                in.toString());
        try (Stream<String> asked = Files.lines(in)) {
            long lines = asked.count();
            if (lines != answers.get()) {
                throw new IllegalStateException(answers + " assessments of " + lines + " cases.");
            }
        }
        return took;
    }

    private static void row(String name, int cases, Took took) {
        System.out.printf(
                Locale.ROOT,
                "| %s | %d | %.1f | %.1f | %.0f | %.0f |%n",
                name,
                cases,
                took.clock(),
                took.processor(),
                cases / took.processor(),
                took.peak());
    }

    private static void parts(Path in) throws RunnerException {
        String yardstick = "plain Java: which rows are raised";
        Map<String, String> ways = new LinkedHashMap<>();
        ways.put(yardstick, "plainJava");
        ways.put("the rules as a triage runs them: which rows are raised", "rules");
        ways.put("ordinary Drools: which rows are raised", "ordinaryDrools");
        ways.put("the line read and checked", "lineRead");
        ways.put("whole triage", "wholeTriage");
        ways.put("line to line: read, whole triage, written", "lineToLine");
        Ratios.print(
                "One made patient, processor time", "us", Rounds.microseconds(in.toString(), ways), List.of(yardstick));
    }
}
