package org.gerdy.engine.knowledge;

import java.util.Collection;
import java.util.List;
import java.util.Set;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;

/**
 * What rules and the evidence table look for in the findings they read: a fact that nothing looks for changes nothing.
 * Immutable, safe for many threads.
 */
public final class FactReads {
    private final EvidenceTable evidence;
    private final LookedFor lookedFor;
    private final List<String> computedEvidence;

    FactReads(Catalogue catalogue, EvidenceTable evidence, Collection<RuleCard> rules) {
        this.evidence = evidence;
        this.lookedFor = new LookedFor(catalogue, rules);
        this.computedEvidence = catalogue.computed().stream()
                .map(ComputedFinding::id)
                .filter(evidence::weighs)
                .toList();
    }

    /** Whether any rule or evidence row is about this finding. */
    public boolean matters(String finding) {
        return lookedFor.reads(finding) || evidence.weighs(finding);
    }

    /** The computed findings that are evidence. */
    public List<String> computedEvidence() {
        return computedEvidence;
    }

    /** Whether any rule looks for what this fact says. */
    public boolean reads(Finding fact) {
        return lookedFor.reads(fact);
    }

    /** What is worth telling the rules at one visit: what some rule looks for that can still hold. */
    public interface Worth {
        /** The findings of which something is worth telling. */
        Set<String> findings();

        /** Whether this fact is worth telling. */
        boolean holds(Finding fact);
    }

    /** What is worth telling the rules of these observations, when facts of these kinds are told besides findings. */
    public Worth worth(Observations observations, Set<String> told) {
        return lookedFor.worth(observations, told);
    }

    /** Whether a rule that reads findings cannot hold before facts of this kind are told. */
    public boolean waitsFor(String kind) {
        return lookedFor.waitsFor(kind);
    }
}
