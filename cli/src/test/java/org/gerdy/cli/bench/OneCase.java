package org.gerdy.cli.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.rules.LateralKnee;
import org.openjdk.jmh.annotations.AuxCounters;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;

/** One case after another on one core: the red flags beside two yardsticks, the whole triage, and what stands around it. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
public class OneCase {
    /** Stands for the case files of the repository. */
    static final String FILES = "files";

    private static final int LOOKED_AT = 2000;
    private static final int TABLES = 10;

    /** {@code files}, or a file of cases as JSON lines. */
    @Param(FILES)
    public String cases = FILES;

    private final Gerdy gerdy = LateralKnee.gerdy();
    private final KnowledgeBase knowledge = gerdy.knowledge();
    private final Gerdy onContainer = new Gerdy(LateralKnee.knowledgeBase(OrdinaryStart::container));
    private final Gerdy larger = new Gerdy(
            KnowledgeVariant.evidence(knowledge, copied(knowledge.evidence().rows())));
    private final OrdinaryDrools ordinary = new OrdinaryDrools(knowledge);
    private List<byte[]> lines = List.of();
    private List<CaseFile> read = List.of();
    private int turn;

    /** Processor time of the thread, which other work on the machine disturbs less than the clock. */
    @AuxCounters(AuxCounters.Type.EVENTS)
    @State(Scope.Thread)
    public static class Processor {
        /** Nanoseconds taken. */
        public long nanos;
        /** Cases done meanwhile. */
        public long cases;

        private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        private long before;

        /** Begins to count. */
        @Setup(Level.Iteration)
        public void begin() {
            before = threads.getCurrentThreadCpuTime();
            cases = 0;
        }

        /** Ends counting. */
        @TearDown(Level.Iteration)
        public void end() {
            nanos = threads.getCurrentThreadCpuTime() - before;
        }
    }

    /** Reads the cases. */
    @Setup
    public void read() throws IOException {
        if (cases.equals(FILES)) {
            read = CaseFiles.all(gerdy);
            return;
        }
        try (Stream<String> texts = Files.lines(Path.of(cases))) {
            lines = texts.limit(LOOKED_AT)
                    .map(line -> line.getBytes(StandardCharsets.UTF_8))
                    .toList();
        }
        read = new ArrayList<>();
        for (byte[] line : lines) {
            read.add(read(line));
        }
    }

    /** Plain Java: which rows are raised. */
    @Benchmark
    public Object plainJava(Processor processor) {
        processor.cases++;
        return HandWrittenRedFlags.raised(answers(next()));
    }

    /** The rules as a triage runs them: which rows are raised. */
    @Benchmark
    public Object rules(Processor processor) {
        processor.cases++;
        return RulesAlone.raised(knowledge, answers(next()));
    }

    /** Ordinary Drools: which rows are raised. */
    @Benchmark
    public Object ordinaryDrools(Processor processor) {
        processor.cases++;
        return ordinary.raised(answers(next()));
    }

    /** The whole triage. */
    @Benchmark
    public Object wholeTriage(Processor processor) {
        processor.cases++;
        return gerdy.assess(next());
    }

    /** The whole triage, rules from a class path container. */
    @Benchmark
    public Object wholeTriageOnContainer(Processor processor) {
        processor.cases++;
        return onContainer.assess(next());
    }

    /** The whole triage with ten times the evidence, nine of them under names no case has. */
    @Benchmark
    public Object wholeTriageOnLargerTable(Processor processor) {
        processor.cases++;
        return larger.assess(next());
    }

    /** A line read and checked. */
    @Benchmark
    public Object lineRead(Processor processor) {
        processor.cases++;
        return read(nextLine());
    }

    /** A line read, assessed and written as a line. */
    @Benchmark
    public Object lineToLine(Processor processor) {
        processor.cases++;
        return AssessmentJson.line(gerdy.assess(read(nextLine())));
    }

    private CaseFile next() {
        turn = (turn + 1) % read.size();
        return read.get(turn);
    }

    private byte[] nextLine() {
        turn = (turn + 1) % lines.size();
        return lines.get(turn);
    }

    private Observations answers(CaseFile one) {
        return Observations.of(knowledge.terms(), one, one.latest());
    }

    private CaseFile read(byte[] line) {
        try {
            return gerdy.reader().read("line", line);
        } catch (MendableException e) {
            throw new IllegalStateException(e.getMessage(), e);
        }
    }

    private static List<EvidenceRow> copied(List<EvidenceRow> rows) {
        List<EvidenceRow> all = new ArrayList<>(rows);
        for (int copy = 1; copy < TABLES; copy++) {
            for (EvidenceRow row : rows) {
                all.add(new EvidenceRow(
                        row.finding() + "-copy-" + copy,
                        row.condition() + "-copy-" + copy,
                        row.whenPresent(),
                        row.whenAbsent(),
                        row.cluster(),
                        row.origin(),
                        row.basis(),
                        row.sources(),
                        row.note()));
            }
        }
        return all;
    }
}
