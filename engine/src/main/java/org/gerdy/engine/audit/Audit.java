package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.CaseFile;

/**
 * Cases run against what they expect, and what of the knowledge base they touch.
 *
 * @param results each case with its assessment and what differs, in order
 * @param coverage which cases fire and just miss each rule and row
 */
public record Audit(List<Result> results, Coverage coverage) {
    /** One case as run. */
    public record Result(AuditCase auditCase, Assessment assessment, List<Difference> differences) {
        /** Whether it got what it expects. */
        public boolean holds() {
            return differences.isEmpty();
        }
    }

    /** Runs the cases on all cores. Throws {@link IllegalArgumentException} for no cases. */
    public static Audit run(Gerdy gerdy, List<AuditCase> cases, Watcher watcher) {
        if (cases.isEmpty()) {
            throw new IllegalArgumentException("An audit over no cases would prove nothing.");
        }
        try (Watcher.Steps steps = watcher.begin("Cases", cases.size())) {
            List<Result> results = IntStream.range(0, cases.size())
                    .parallel()
                    .mapToObj(i -> result(gerdy, cases.get(i)))
                    .peek(result -> steps.done(1))
                    .toList();
            return new Audit(results, Coverage.of(gerdy.knowledge(), results));
        }
    }

    private static Result result(Gerdy gerdy, AuditCase one) {
        CaseFile file = one.caseFile();
        CaseFile.Care care = file.expect().map(expect -> expect.detail().care()).orElse(CaseFile.Care.NOTHING);
        List<Difference> differences = new ArrayList<>();
        Assessment assessment;
        if (care.plan().isEmpty() && care.notPlan().isEmpty()) {
            assessment = gerdy.assess(file);
        } else {
            VisitResult visit = gerdy.visit(file, file.latest());
            assessment = visit.assessment();
            differences.addAll(Expected.ofPlan(care, visit.aftercare().plan()));
        }
        file.expect().ifPresent(expect -> differences.addAll(0, Expected.differences(expect, assessment)));
        return new Result(one, assessment, List.copyOf(differences));
    }

    /** The cases that did not get what they expect. */
    public List<Result> differing() {
        return results.stream().filter(result -> !result.holds()).toList();
    }

    /** Whether every case got what it expects. */
    public boolean holds() {
        return results.stream().allMatch(Result::holds);
    }

    /** How many cases expect nothing; they guard nothing. */
    public long silent() {
        return results.stream().filter(result -> !result.auditCase().expects()).count();
    }
}
