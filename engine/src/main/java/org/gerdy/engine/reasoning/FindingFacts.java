package org.gerdy.engine.reasoning;

import java.util.HashSet;
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
    private final Observations observations;
    private final Set<Finding> facts = new HashSet<>();

    private FindingFacts(KnowledgeBase knowledge, Observations observations) {
        this.knowledge = knowledge;
        this.observations = observations;
    }

    /** The facts for these observations. */
    public static Set<Finding> of(KnowledgeBase knowledge, Observations observations) {
        FindingFacts made = new FindingFacts(knowledge, observations);
        knowledge.factFindings().forEach(made::asked);
        knowledge.factComputed().forEach(made::computed);
        return made.facts;
    }

    private void asked(FindingDefinition definition) {
        String id = definition.id();
        if (!observations.isRecorded(id)) {
            if (definition.kind() == Kind.YES_NO && !observations.applies(definition)) {
                facts.add(new Finding(id, false, false, false, true, "", false));
            }
        } else if (definition.kind() == Kind.CHOICE) {
            for (String choice : observations.choices(id)) {
                facts.add(new Finding(id, false, false, false, false, choice, false));
            }
        } else if (definition.kind() == Kind.YES_NO) {
            yesNo(id);
        }
    }

    private void yesNo(String id) {
        Truth present = observations.is(id, "present");
        Truth absent = observations.is(id, "absent");
        boolean unable = observations.isUnable(id);
        if (present != Truth.UNKNOWN || absent == Truth.TRUE || unable) {
            facts.add(new Finding(
                    id,
                    present == Truth.TRUE,
                    absent == Truth.TRUE,
                    unable,
                    present == Truth.FALSE,
                    "",
                    knowledge.evidence().weighs(id) && observations.speaksForPainfulSide(id)));
        }
    }

    private void computed(ComputedFinding finding) {
        String id = finding.id();
        Truth truth = observations.computed(id);
        if (truth != Truth.UNKNOWN) {
            boolean holds = truth == Truth.TRUE;
            boolean weighs = knowledge.evidence().weighs(id) && restsOnAnswers(id);
            facts.add(new Finding(id, holds, !holds, false, !holds, "", weighs));
        }
    }

    /** A computed finding that is false only because nothing applies is no evidence about the patient. */
    private boolean restsOnAnswers(String id) {
        for (String asked : knowledge.catalogue().askedBehind(id)) {
            if (observations.isRecorded(asked)) {
                return true;
            }
        }
        return false;
    }
}
