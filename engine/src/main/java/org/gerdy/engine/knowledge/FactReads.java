package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/**
 * What rules and the evidence table look for in the findings they read: a fact that nothing looks for changes nothing.
 * Immutable, safe for many threads.
 */
public final class FactReads {
    /**
     * A computed finding that rules or the evidence table read.
     *
     * @param id its id
     * @param read whether a rule reads it by name
     * @param unasked its truth while nothing it rests on is recorded
     */
    public record Computed(String id, boolean read, Truth unasked) {}

    private final Catalogue catalogue;
    private final EvidenceTable evidence;
    private final LookedFor lookedFor;
    private final Map<String, FindingDefinition> asked = new HashMap<>();
    private final List<FindingDefinition> notApplicable = new ArrayList<>();
    private final List<Computed> computed = new ArrayList<>();
    private final Map<String, BitSet> computedFrom = new HashMap<>();

    FactReads(Catalogue catalogue, EvidenceTable evidence, Collection<RuleCard> rules) {
        this.catalogue = catalogue;
        this.evidence = evidence;
        this.lookedFor = new LookedFor(rules);
        Observations nothing = Observations.of(catalogue, Side.LEFT, Map.of());
        for (ComputedFinding finding : catalogue.computed()) {
            if (matters(finding.id())) {
                computed.add(new Computed(finding.id(), lookedFor.reads(finding.id()), nothing.computed(finding.id())));
            }
        }
        for (FindingDefinition finding : catalogue.findings()) {
            computedFrom.put(finding.id(), resting(finding.id()));
            if (matters(finding.id())) {
                asked.put(finding.id(), finding);
                if (finding.kind() == Kind.YES_NO && finding.onlyIf().isPresent() && lookedFor.ruledOut(finding.id())) {
                    notApplicable.add(finding);
                }
            }
        }
    }

    private BitSet resting(String finding) {
        Set<String> resting = catalogue.restingOn(finding);
        BitSet places = new BitSet(computed.size());
        for (int i = 0; i < computed.size(); i++) {
            places.set(i, resting.contains(computed.get(i).id()));
        }
        return places;
    }

    /** Whether any rule or evidence row is about this finding. */
    public boolean matters(String finding) {
        return lookedFor.reads(finding) || evidence.weighs(finding);
    }

    /** The finding of this id, if it matters and can be asked. */
    public Optional<FindingDefinition> asked(String id) {
        return Optional.ofNullable(asked.get(id));
    }

    /** Those that can be asked and whose not being applicable some rule looks for. */
    public List<FindingDefinition> notApplicable() {
        return notApplicable;
    }

    /** The computed findings that matter. */
    public List<Computed> computed() {
        return computed;
    }

    /** The places in {@link #computed()} of those that rest on something recorded; the others keep their unasked truth. */
    public BitSet restingOn(Set<String> recorded) {
        BitSet places = new BitSet(computed.size());
        for (String finding : recorded) {
            BitSet resting = computedFrom.get(finding);
            if (resting != null) {
                places.or(resting);
            }
        }
        return places;
    }

    /** Whether any rule looks for what this fact says. */
    public boolean reads(Finding fact) {
        return lookedFor.reads(fact);
    }

    /** Those of the facts, which must be all of a visit, that some rule looks for which they leave possible. */
    public List<Finding> worthTelling(List<Finding> facts) {
        return lookedFor.worthTelling(facts);
    }
}
