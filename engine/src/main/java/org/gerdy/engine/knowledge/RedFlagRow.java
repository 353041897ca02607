package org.gerdy.engine.knowledge;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * One row of a red flag: its urgency, what it needs to have been asked, and what to do. What raises it is a rule.
 *
 * @param flag the flag it belongs to
 * @param id {@code flag/what-it-says}
 * @param label shown to the clinician
 * @param urgency the level when raised
 * @param within the time limit inside the level, in words
 * @param appliesIf who it is about; outside, it is not applicable and never negative
 * @param raisedWhen what the rules raise it on, written out for the reader and for cross-checks
 * @param trigger an entry question whose absence ends the row
 * @param needs findings that must be settled before it is cleared
 * @param action what to do when raised
 * @param rationale why
 * @param sources bibliography keys
 * @param basis where it comes from
 * @param note for the rule author
 */
public record RedFlagRow(
        String flag,
        String id,
        String label,
        Urgency urgency,
        String within,
        Optional<Expression> appliesIf,
        Expression raisedWhen,
        Optional<Expression> trigger,
        List<String> needs,
        String action,
        String rationale,
        List<String> sources,
        Basis basis,
        String note) {}
