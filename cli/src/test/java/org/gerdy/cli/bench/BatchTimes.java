package org.gerdy.cli.bench;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.gerdy.cli.bench.Watched.Took;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.rules.LateralKnee;

/** Triage of made patients as JSON lines: the whole program on many of them, and the parts of one. */
final class BatchTimes {
    private static final int LOOKED_AT = 2000;
    private static final List<String> OPTIONS = List.of("-Xmx320m", "-XX:+UseSerialGC");

    /** Makes {@code cases} patients, assesses them all in a heap of 320 MB, and prints what each part takes. */
    void run(int cases) throws IOException, InterruptedException {
        Path directory = Files.createTempDirectory("gerdy-batch");
        Path in = directory.resolve("in.jsonl");
        Path few = directory.resolve("few.jsonl");
        Path out = directory.resolve("out.jsonl");
        try {
            Took made = Watched.run(OPTIONS, "simulate", "--cases", Integer.toString(cases), "--write", in.toString());
            try (Stream<String> lines = Files.lines(in)) {
                Files.write(few, lines.limit(Math.max(1, cases / 10)).toList());
            }
            Took small = batch(few, out);
            Took large = batch(in, out);
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
            Files.deleteIfExists(out);
            Files.delete(directory);
        }
    }

    private static Took batch(Path in, Path out) throws IOException, InterruptedException {
        Files.deleteIfExists(out);
        Took took = Watched.run(OPTIONS, "triage", "--batch", in.toString(), "--out", out.toString());
        try (Stream<String> asked = Files.lines(in);
                Stream<String> answered = Files.lines(out)) {
            long lines = asked.count();
            long answers =
                    answered.filter(line -> !line.startsWith("{\"line\"")).count();
            if (lines != answers) {
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

    private static void parts(Path in) throws IOException {
        Gerdy gerdy = LateralKnee.gerdy();
        List<byte[]> texts;
        try (Stream<String> lines = Files.lines(in)) {
            texts = lines.limit(LOOKED_AT)
                    .map(line -> line.getBytes(StandardCharsets.UTF_8))
                    .toList();
        }
        List<Made> cases = new ArrayList<>();
        for (byte[] text : texts) {
            cases.add(new Made(text, read(gerdy, text)));
        }
        OrdinaryDrools ordinary = new OrdinaryDrools(gerdy.knowledge());
        String yardstick = "plain Java: which rows are raised";
        Map<String, Function<Made, Object>> ways = new LinkedHashMap<>();
        ways.put(yardstick, one -> HandWrittenRedFlags.raised(answers(gerdy, one)));
        ways.put(
                "the rules as a triage runs them: which rows are raised",
                one -> RulesAlone.raised(gerdy.knowledge(), answers(gerdy, one)));
        ways.put("ordinary Drools: which rows are raised", one -> ordinary.raised(answers(gerdy, one)));
        ways.put("the line read and checked", one -> read(gerdy, one.text()));
        ways.put("whole triage", one -> gerdy.assess(one.read()));
        ways.put(
                "line to line: read, whole triage, written",
                one -> AssessmentJson.line(gerdy.assess(read(gerdy, one.text()))));
        Ratios.print(
                "One made patient, processor time", "us", new Passes().microseconds(cases, ways), List.of(yardstick));
    }

    private record Made(byte[] text, CaseFile read) {}

    private static Observations answers(Gerdy gerdy, Made one) {
        return Observations.of(gerdy.knowledge().terms(), one.read(), one.read().latest());
    }

    private static CaseFile read(Gerdy gerdy, byte[] text) {
        try {
            return gerdy.reader().read("line", text);
        } catch (MendableException e) {
            throw new IllegalStateException(e.getMessage(), e);
        }
    }
}
