package org.gerdy.cli.bench;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.rules.LateralKnee;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/** Time for one case on one core, the case files taken in turn. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
public class TriageBenchmark {
    private Gerdy gerdy;
    private Gerdy onContainer;
    private OrdinaryDrools ordinary;
    private List<CaseFile> cases;
    private int next;

    /** Starts the rules in each way and reads the cases. */
    @Setup
    public void start() {
        gerdy = LateralKnee.gerdy();
        ordinary = new OrdinaryDrools(gerdy.knowledge());
        onContainer = new Gerdy(LateralKnee.knowledgeBase(OrdinaryStart::container));
        cases = CaseFiles.all(gerdy);
    }

    /** Everything a triage gives: flags, what to ask, candidates, referrals, decision rules, reasons. */
    @Benchmark
    public Assessment triage() {
        return gerdy.assess(nextCase());
    }

    /** The same with the rules from a class path container. */
    @Benchmark
    public Assessment triageOnContainer() {
        return onContainer.assess(nextCase());
    }

    /** The rules alone, started and fed the ordinary way: which rows are raised. */
    @Benchmark
    public List<String> rulesTheOrdinaryWay() {
        return ordinary.raised(answers());
    }

    /** The rules alone, as a triage runs them: which rows are raised. */
    @Benchmark
    public List<String> rulesAsInTriage() {
        return RulesAlone.raised(gerdy.knowledge(), answers());
    }

    /** The rows raised, worked out by plain Java. */
    @Benchmark
    public List<String> handWritten() {
        return HandWrittenRedFlags.raised(answers());
    }

    private Observations answers() {
        CaseFile one = nextCase();
        return Observations.of(gerdy.knowledge().terms(), one, one.latest());
    }

    private CaseFile nextCase() {
        next = next + 1 < cases.size() ? next + 1 : 0;
        return cases.get(next);
    }
}
