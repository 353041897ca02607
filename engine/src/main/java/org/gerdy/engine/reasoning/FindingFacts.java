package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceFinding;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.knowledge.FactReads;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** The facts about findings that rules reason from: those known, as far as some rule or evidence row looks for them. */
public final class FindingFacts {
    private final KnowledgeBase knowledge;
    private final FactReads reads;

    /** The facts that the rules and the evidence table of this knowledge base look for. */
    public FindingFacts(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reads = knowledge.factReads();
    }

    /** Every finding some rule looks for that can still hold. */
    public List<Finding> read(Observations observations) {
        List<Finding> facts = new ArrayList<>();
        for (String id : observations.recorded().keySet()) {
            reads.asked(id).ifPresent(definition -> recorded(definition, observations, facts));
        }
        for (FindingDefinition definition : reads.notApplicable()) {
            unasked(definition, observations, facts);
        }
        BitSet resting = reads.restingOn(observations.recorded().keySet());
        for (int i = 0; i < reads.computed().size(); i++) {
            FactReads.Computed computed = reads.computed().get(i);
            if (computed.read()) {
                computed(
                        computed.id(),
                        resting.get(i) ? observations.computed(computed.id()) : computed.unasked(),
                        facts);
            }
        }
        return reads.worthTelling(facts);
    }

    /** Every finding that is evidence. */
    public List<EvidenceFinding> evidence(Observations observations) {
        List<EvidenceFinding> facts = new ArrayList<>();
        for (String id : observations.recorded().keySet()) {
            reads.asked(id)
                    .flatMap(definition -> evidenceRecorded(definition, observations))
                    .ifPresent(facts::add);
        }
        BitSet resting = reads.restingOn(observations.recorded().keySet());
        for (int i = resting.nextSetBit(0); i >= 0; i = resting.nextSetBit(i + 1)) {
            FactReads.Computed computed = reads.computed().get(i);
            evidenceComputed(computed.id(), observations).ifPresent(facts::add);
        }
        return facts;
    }

    /** The facts of one finding, for rules and for the evidence table: none while it is unknown. */
    List<Object> of(String id, Observations observations) {
        if (!reads.matters(id)) {
            return List.of();
        }
        List<Finding> facts = new ArrayList<>();
        Optional<EvidenceFinding> evidence;
        Optional<FindingDefinition> asked = reads.asked(id);
        if (asked.isEmpty()) {
            computed(id, observations.computed(id), facts);
            evidence = evidenceComputed(id, observations);
        } else {
            recorded(asked.get(), observations, facts);
            unasked(asked.get(), observations, facts);
            evidence = evidenceRecorded(asked.get(), observations);
        }
        List<Object> all = new ArrayList<>(facts);
        evidence.ifPresent(all::add);
        return all;
    }

    private void unasked(FindingDefinition definition, Observations observations, List<Finding> facts) {
        if (definition.kind() == Kind.YES_NO && !observations.applies(definition)) {
            add(new Finding(definition.id(), false, false, false, true, ""), facts);
        }
    }

    private void recorded(FindingDefinition definition, Observations observations, List<Finding> facts) {
        String id = definition.id();
        switch (definition.kind()) {
            case CHOICE ->
                observations
                        .choices(id)
                        .forEach(choice -> add(new Finding(id, false, false, false, false, choice), facts));
            case YES_NO -> {
                if (observations.isRecorded(id)) {
                    yesNo(id, observations, facts);
                }
            }
            case NUMBER, SCALE_0_10, DURATION, DATE -> {}
        }
    }

    private void yesNo(String id, Observations observations, List<Finding> facts) {
        Truth present = observations.is(id, "present");
        Truth absent = observations.is(id, "absent");
        boolean unable = present == Truth.UNKNOWN && observations.isUnable(id);
        if (present != Truth.UNKNOWN || absent == Truth.TRUE || unable) {
            add(
                    new Finding(id, present == Truth.TRUE, absent == Truth.TRUE, unable, present == Truth.FALSE, ""),
                    facts);
        }
    }

    private void computed(String id, Truth truth, List<Finding> facts) {
        if (truth != Truth.UNKNOWN) {
            boolean holds = truth == Truth.TRUE;
            add(new Finding(id, holds, !holds, false, !holds, ""), facts);
        }
    }

    private void add(Finding fact, List<Finding> facts) {
        if (reads.reads(fact)) {
            facts.add(fact);
        }
    }

    private Optional<EvidenceFinding> evidenceRecorded(FindingDefinition definition, Observations observations) {
        String id = definition.id();
        boolean weighs =
                definition.kind() == Kind.YES_NO && knowledge.evidence().weighs(id);
        return weighs && observations.speaksForPainfulSide(id)
                ? Optional.of(new EvidenceFinding(id, observations.is(id, "present") == Truth.TRUE))
                : Optional.empty();
    }

    /** A computed finding that is false only because nothing applies is no evidence about the patient. */
    private Optional<EvidenceFinding> evidenceComputed(String id, Observations observations) {
        if (!knowledge.evidence().weighs(id)) {
            return Optional.empty();
        }
        Truth truth = observations.computed(id);
        boolean rests = truth != Truth.UNKNOWN
                && !Collections.disjoint(
                        knowledge.catalogue().askedBehind(id),
                        observations.recorded().keySet());
        return rests ? Optional.of(new EvidenceFinding(id, truth == Truth.TRUE)) : Optional.empty();
    }
}
