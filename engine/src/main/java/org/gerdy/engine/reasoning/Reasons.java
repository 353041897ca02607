package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RuleCard;

/** Puts the reason behind a conclusion into words: the rule, what it read and found, its sources. */
final class Reasons {
    private final KnowledgeBase knowledge;

    Reasons(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** The reason for a conclusion of this rule. */
    Reason of(String ruleId, Observations observations) {
        RuleCard rule = knowledge.rule(ruleId);
        Set<String> asked = new LinkedHashSet<>();
        for (String read : rule.reads()) {
            asked.addAll(knowledge.catalogue().askedBehind(read));
        }
        List<Reason.Read> findings = new ArrayList<>();
        for (String id : asked) {
            if (observations.recorded(id).isPresent()) {
                findings.add(new Reason.Read(id, observations.shown(id)));
            }
        }
        return new Reason(ruleId, rule.because(), List.copyOf(findings), rule.sources(), rule.basis());
    }
}
