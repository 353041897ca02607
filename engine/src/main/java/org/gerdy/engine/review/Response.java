package org.gerdy.engine.review;

import java.util.Locale;

/** What all scores together come to. */
public enum Response {
    BETTER,
    PARTIAL,
    UNCHANGED,
    WORSE,
    /** No score can be compared yet. */
    NOT_KNOWN;

    /** The word used in tables and on screen. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
