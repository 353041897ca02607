package org.gerdy.engine.fact;

import java.util.Optional;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * The result of triage, as plan rules see it.
 *
 * @param urgency the level's word, or empty while there is none
 * @param complete whether no red flag is open
 */
public record Triage(String urgency, boolean complete) {
    /** The result of triage; a screening that is not complete may have no level yet. */
    public static Triage of(Optional<Urgency> urgency, boolean complete) {
        return new Triage(urgency.map(Urgency::word).orElse(""), complete);
    }

    /** The level, if there is one. */
    public Optional<Urgency> level() {
        return Urgency.of(urgency);
    }

    /** The level's word, or empty. */
    public String getUrgency() {
        return urgency;
    }

    /** Whether no red flag is open. */
    public boolean isComplete() {
        return complete;
    }
}
