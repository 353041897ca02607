package org.gerdy.engine.assessment;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * A red flag as decided.
 *
 * @param id the flag
 * @param label as shown
 * @param state raised, open or cleared
 * @param highest the raised row of highest urgency
 * @param rows every row, in table order
 * @param open whether an unanswered row could raise it, or raise it higher
 * @param ask what to ask to settle it
 * @param couldBecome the highest urgency an open row could give it
 */
public record Flag(
        String id,
        String label,
        FlagState state,
        Optional<Row> highest,
        List<Row> rows,
        boolean open,
        List<String> ask,
        Optional<Urgency> couldBecome) {

    /** The urgency it is raised at. */
    public Optional<Urgency> urgency() {
        return highest.map(Row::urgency);
    }

    /** One row as decided. */
    public record Row(
            String id,
            String label,
            FlagState state,
            Urgency urgency,
            String within,
            String action,
            String rationale,
            List<Reason> reasons,
            List<String> ask) {}
}
