package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;
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

    /** Every finding some rule looks for that can still hold when facts of the kinds named are told besides findings. */
    public List<Finding> read(Observations observations, Set<String> told) {
        FactReads.Worth worth = reads.worth(observations, told);
        List<Finding> facts = new ArrayList<>();
        for (String id : worth.findings()) {
            read(id, observations, facts);
        }
        facts.removeIf(fact -> !worth.holds(fact));
        return facts;
    }

    /** Every finding that is evidence. */
    public List<EvidenceFinding> evidence(Observations observations) {
        List<EvidenceFinding> facts = new ArrayList<>();
        for (String id : observations.recorded().keySet()) {
            knowledge
                    .catalogue()
                    .finding(id)
                    .flatMap(definition -> evidenceRecorded(definition, observations))
                    .ifPresent(facts::add);
        }
        for (String id : reads.computedEvidence()) {
            evidenceComputed(id, observations).ifPresent(facts::add);
        }
        return facts;
    }

    /** What rules look for in one finding, and what it is for the evidence table: nothing while it is unknown. */
    List<Object> of(String id, Observations observations) {
        if (!reads.matters(id)) {
            return List.of();
        }
        List<Finding> facts = new ArrayList<>();
        read(id, observations, facts);
        List<Object> all = new ArrayList<>();
        facts.stream().filter(reads::reads).forEach(all::add);
        knowledge
                .catalogue()
                .finding(id)
                .map(definition -> evidenceRecorded(definition, observations))
                .orElseGet(() -> evidenceComputed(id, observations))
                .ifPresent(all::add);
        return all;
    }

    private void read(String id, Observations observations, List<Finding> facts) {
        Optional<FindingDefinition> asked = knowledge.catalogue().finding(id);
        if (asked.isEmpty()) {
            if (knowledge.catalogue().knows(id)) {
                computed(id, observations.computed(id), facts);
            }
        } else if (observations.isRecorded(id)) {
            recorded(asked.get(), observations, facts);
        } else if (asked.get().kind() == Kind.YES_NO && !observations.applies(asked.get())) {
            facts.add(new Finding(id, false, false, false, true, ""));
        }
    }

    private static void recorded(FindingDefinition definition, Observations observations, List<Finding> facts) {
        String id = definition.id();
        switch (definition.kind()) {
            case CHOICE ->
                observations
                        .choices(id)
                        .forEach(choice -> facts.add(new Finding(id, false, false, false, false, choice)));
            case YES_NO -> yesNo(id, observations, facts);
            case NUMBER, SCALE_0_10, DURATION, DATE -> {}
        }
    }

    private static void yesNo(String id, Observations observations, List<Finding> facts) {
        Truth present = observations.is(id, "present");
        Truth absent = observations.is(id, "absent");
        boolean unable = present == Truth.UNKNOWN && observations.isUnable(id);
        if (present != Truth.UNKNOWN || absent == Truth.TRUE || unable) {
            facts.add(new Finding(id, present == Truth.TRUE, absent == Truth.TRUE, unable, present == Truth.FALSE, ""));
        }
    }

    private static void computed(String id, Truth truth, List<Finding> facts) {
        if (truth != Truth.UNKNOWN) {
            boolean holds = truth == Truth.TRUE;
            facts.add(new Finding(id, holds, !holds, false, !holds, ""));
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
        if (!knowledge.evidence().weighs(id)
                || Collections.disjoint(
                        knowledge.catalogue().askedBehind(id),
                        observations.recorded().keySet())) {
            return Optional.empty();
        }
        Truth truth = observations.computed(id);
        return truth == Truth.UNKNOWN ? Optional.empty() : Optional.of(new EvidenceFinding(id, truth == Truth.TRUE));
    }
}
