package org.gerdy.engine.logic;

/** Kleene's three truth values: a thing nobody asked is neither true nor false. */
public enum Truth {
    TRUE,
    FALSE,
    UNKNOWN;

    /** The truth value of a plain boolean. */
    public static Truth of(boolean value) {
        return value ? TRUE : FALSE;
    }

    /** True when both are true, false when either is false, otherwise unknown. */
    public Truth and(Truth other) {
        if (this == FALSE || other == FALSE) {
            return FALSE;
        }
        return this == TRUE && other == TRUE ? TRUE : UNKNOWN;
    }

    /** True when either is true, false when both are false, otherwise unknown. */
    public Truth or(Truth other) {
        if (this == TRUE || other == TRUE) {
            return TRUE;
        }
        return this == FALSE && other == FALSE ? FALSE : UNKNOWN;
    }

    /** The opposite; unknown stays unknown. */
    public Truth not() {
        return switch (this) {
            case TRUE -> FALSE;
            case FALSE -> TRUE;
            case UNKNOWN -> UNKNOWN;
        };
    }
}
