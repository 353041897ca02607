package org.gerdy.engine.reasoning;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** The facts about findings that rules reason from: those known, among those some rule or table reads. */
public final class FindingFacts {
    private final KnowledgeBase knowledge;

    FindingFacts(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** Every fact for these observations. */
    public static Set<Finding> of(KnowledgeBase knowledge, Observations observations) {
        FindingFacts facts = new FindingFacts(knowledge);
        Set<Finding> all = new HashSet<>();
        for (FindingDefinition definition : knowledge.factFindings()) {
            all.addAll(facts.asked(definition, observations));
        }
        for (ComputedFinding computed : knowledge.factComputed()) {
            all.addAll(facts.computed(computed.id(), observations));
        }
        return all;
    }

    /** Whether any rule or evidence row looks at this finding. */
    boolean matters(String id) {
        return knowledge.readByRules().contains(id) || knowledge.evidence().weighs(id);
    }

    /** The facts of one finding: none while it is unknown, one for each choice, else one. */
    List<Finding> of(String id, Observations observations) {
        if (!matters(id)) {
            return List.of();
        }
        return knowledge
                .catalogue()
                .finding(id)
                .map(definition -> asked(definition, observations))
                .orElseGet(() -> computed(id, observations));
    }

    private List<Finding> asked(FindingDefinition definition, Observations observations) {
        String id = definition.id();
        if (!observations.isRecorded(id)) {
            boolean ruledOut = definition.kind() == Kind.YES_NO && !observations.applies(definition);
            return ruledOut ? List.of(new Finding(id, false, false, false, true, "", false)) : List.of();
        }
        return switch (definition.kind()) {
            case CHOICE ->
                observations.choices(id).stream()
                        .map(choice -> new Finding(id, false, false, false, false, choice, false))
                        .toList();
            case YES_NO -> yesNo(id, observations);
            case NUMBER, SCALE_0_10, DURATION, DATE -> List.of();
        };
    }

    private List<Finding> yesNo(String id, Observations observations) {
        Truth present = observations.is(id, "present");
        Truth absent = observations.is(id, "absent");
        boolean unable = observations.isUnable(id);
        if (present == Truth.UNKNOWN && absent != Truth.TRUE && !unable) {
            return List.of();
        }
        return List.of(new Finding(
                id,
                present == Truth.TRUE,
                absent == Truth.TRUE,
                unable,
                present == Truth.FALSE,
                "",
                knowledge.evidence().weighs(id) && observations.speaksForPainfulSide(id)));
    }

    private List<Finding> computed(String id, Observations observations) {
        Truth truth = observations.computed(id);
        if (truth == Truth.UNKNOWN) {
            return List.of();
        }
        boolean holds = truth == Truth.TRUE;
        boolean weighs = knowledge.evidence().weighs(id) && restsOnAnswers(id, observations);
        return List.of(new Finding(id, holds, !holds, false, !holds, "", weighs));
    }

    /** A computed finding that is false only because nothing applies is no evidence about the patient. */
    private boolean restsOnAnswers(String id, Observations observations) {
        for (String asked : knowledge.catalogue().askedBehind(id)) {
            if (observations.isRecorded(asked)) {
                return true;
            }
        }
        return false;
    }
}
