package org.gerdy.engine.reasoning;

import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Truth;

/** Decides how a red flag row stands once it is known that no rule raised it. */
public final class RowState {
    private RowState() {}

    /**
     * How a row stands that no rule raised. The one place that decides it, so that a triage, a what-if and the safety proof
     * cannot part ways.
     */
    public static FlagState ofUnraised(RedFlagRow row, Observations observations) {
        Truth applies = row.appliesIf().map(gate -> gate.in(observations)).orElse(Truth.TRUE);
        if (applies == Truth.FALSE) {
            return FlagState.NOT_APPLICABLE;
        }
        Truth triggered = row.trigger().map(trigger -> trigger.in(observations)).orElse(Truth.TRUE);
        if (triggered == Truth.FALSE) {
            return FlagState.NOT_TRIGGERED;
        }
        if (row.needs().isEmpty()) {
            // Raises when its fact happens to be recorded; asks for nothing and never holds the screen open.
            return FlagState.CLEARED;
        }
        boolean settled = applies == Truth.TRUE
                && triggered == Truth.TRUE
                && row.needs().stream().allMatch(observations::isKnown);
        return settled ? FlagState.CLEARED : FlagState.OPEN;
    }
}
