package org.gerdy.engine.assessment;

import java.util.Locale;

/** How a red flag, or one row of it, stands. */
public enum FlagState {
    /** The danger sign is there. */
    RAISED,
    /** Something it needs has not been asked, or could not be done. */
    OPEN,
    /** Everything it needs was asked and nothing raised it. */
    CLEARED,
    /** The patient is outside the people it is about. Never a negative result. */
    NOT_APPLICABLE,
    /** Its entry question was answered no. */
    NOT_TRIGGERED;

    /** The word used on screen and in JSON. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
