package org.gerdy.engine.reasoning;

import java.util.List;
import java.util.Set;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** The facts rules see of one finding, so that one changed answer touches only the facts it can change. */
final class FindingFacts {
    private final KnowledgeBase knowledge;
    private final Set<String> read;

    FindingFacts(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.read = knowledge.readByRules();
    }

    /** Whether any rule or evidence row looks at this finding. */
    boolean matters(String id) {
        return read.contains(id) || weighs(id);
    }

    /** The facts of this finding: none while it is unknown, one for each choice, else one. */
    List<Finding> of(String id, Observations observations) {
        boolean weighs = weighs(id);
        if (!weighs && !read.contains(id)) {
            return List.of();
        }
        return knowledge
                .catalogue()
                .finding(id)
                .map(definition -> asked(definition, observations, weighs))
                .orElseGet(() -> computed(id, observations, weighs));
    }

    private List<Finding> asked(FindingDefinition definition, Observations observations, boolean weighs) {
        String id = definition.id();
        if (definition.kind() == Kind.CHOICE) {
            return observations.choices(id).stream()
                    .map(choice -> new Finding(id, false, false, false, false, choice, false))
                    .toList();
        }
        if (definition.kind() != Kind.YES_NO) {
            return List.of();
        }
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
                weighs && observations.speaksForPainfulSide(id)));
    }

    private List<Finding> computed(String id, Observations observations, boolean weighs) {
        Truth truth = observations.computed(id);
        if (truth == Truth.UNKNOWN) {
            return List.of();
        }
        boolean holds = truth == Truth.TRUE;
        boolean speaks = weighs
                && knowledge.catalogue().askedBehind(id).stream()
                        .anyMatch(asked -> observations.recorded(asked).isPresent());
        return List.of(new Finding(id, holds, !holds, false, !holds, "", speaks));
    }

    private boolean weighs(String id) {
        return !knowledge.evidence().of(id, true).isEmpty()
                || !knowledge.evidence().of(id, false).isEmpty();
    }
}
