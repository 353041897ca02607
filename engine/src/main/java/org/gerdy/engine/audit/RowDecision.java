package org.gerdy.engine.audit;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.RowState;

/** Decides one red flag row by the written logic of its rules: fast enough for millions. */
final class RowDecision {
    private final RedFlagRow row;
    private final List<Expression> rules;

    RowDecision(KnowledgeBase knowledge, RedFlagRow row) {
        this.row = row;
        this.rules = knowledge.rules().values().stream()
                .filter(rule -> rule.row().equals(row.id()))
                .map(RuleCard::logic)
                .flatMap(Optional::stream)
                .toList();
    }

    RedFlagRow row() {
        return row;
    }

    List<Expression> rules() {
        return rules;
    }

    /** How the row stands. */
    FlagState state(Observations observations) {
        boolean raised = rules.stream().anyMatch(rule -> rule.in(observations) == Truth.TRUE);
        return raised ? FlagState.RAISED : RowState.ofUnraised(row, observations);
    }
}
