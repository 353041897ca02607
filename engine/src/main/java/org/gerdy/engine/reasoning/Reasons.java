package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Points;
import org.gerdy.engine.logic.Truth;

/** Puts the reason behind a conclusion into words: the rule, which answers made it hold, its sources. */
final class Reasons {
    private final KnowledgeBase knowledge;

    Reasons(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** The reason for a conclusion of this rule. */
    Reason of(String ruleId, Observations observations) {
        RuleCard rule = knowledge.rule(ruleId);
        Set<String> behind = new LinkedHashSet<>();
        if (rule.logic().isPresent()) {
            collect(rule.logic().get(), observations, behind);
        } else {
            rule.reads().forEach(read -> behind.addAll(knowledge.catalogue().askedBehind(read)));
        }
        List<Reason.Read> findings = new ArrayList<>();
        for (String id : behind) {
            if (observations.recorded(id).isPresent()) {
                findings.add(new Reason.Read(id, observations.shown(id)));
            }
        }
        return new Reason(ruleId, rule.because(), List.copyOf(findings), rule.sources(), rule.basis());
    }

    /** The asked findings that make an expression hold; of alternatives, those that do. */
    private void collect(Expression expression, Observations observations, Set<String> behind) {
        if (expression instanceof Expression.And and) {
            and.parts().forEach(part -> collect(part, observations, behind));
        } else if (expression instanceof Expression.Or or) {
            collectHolding(or.parts(), observations, behind);
        } else if (expression instanceof Expression.AtLeast atLeast) {
            collectHolding(atLeast.parts(), observations, behind);
        } else if (expression instanceof Expression.Score score) {
            collectHolding(
                    score.points().items().stream().map(Points.Item::condition).toList(), observations, behind);
        } else if (expression instanceof Expression.Recorded recorded) {
            collect(recorded.part(), observations, behind);
        } else if (expression instanceof Expression.Not not) {
            // What is ruled out counts by every answer that bears on it.
            not.part().atoms(atom -> behind.addAll(knowledge.catalogue().askedBehind(atom.finding())));
        } else if (expression instanceof Expression.Atom atom) {
            knowledge
                    .catalogue()
                    .computed(atom.finding())
                    .ifPresentOrElse(
                            computed -> collect(computed.means(), observations, behind),
                            () -> behind.add(atom.finding()));
        } else {
            expression
                    .findings()
                    .forEach(id -> behind.addAll(knowledge.catalogue().askedBehind(id)));
        }
    }

    private void collectHolding(List<Expression> parts, Observations observations, Set<String> behind) {
        parts.stream()
                .filter(part -> part.in(observations) == Truth.TRUE)
                .forEach(part -> collect(part, observations, behind));
    }
}
