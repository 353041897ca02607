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

/** Decides one red flag row by the written logic of its rules: a second reading of the screening, fast enough for millions. */
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

    /** Raised, open, or cleared; not applicable and not triggered count as cleared. */
    FlagState state(Observations observations) {
        for (Expression rule : rules) {
            if (rule.in(observations) == Truth.TRUE) {
                return FlagState.RAISED;
            }
        }
        Truth applies = row.appliesIf().map(gate -> gate.in(observations)).orElse(Truth.TRUE);
        Truth triggered = row.trigger().map(gate -> gate.in(observations)).orElse(Truth.TRUE);
        if (applies == Truth.FALSE || triggered == Truth.FALSE || row.needs().isEmpty()) {
            return FlagState.CLEARED;
        }
        if (applies == Truth.UNKNOWN || triggered == Truth.UNKNOWN) {
            return FlagState.OPEN;
        }
        return row.needs().stream().allMatch(observations::isKnown) ? FlagState.CLEARED : FlagState.OPEN;
    }
}
