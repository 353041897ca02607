package org.gerdy.engine.measure;

import java.util.Locale;

/** What measuring says about a contributing factor, weakest first. */
public enum FactorVerdict {
    /** Nothing was recorded that could tell, or what was recorded cannot be compared. */
    NOT_MEASURED,
    /** Looked for and not there. */
    NOT_FOUND,
    /** Seen, yet inside measurement error, unconfirmed, or of a kind no study ties to the complaint. */
    BORDERLINE,
    /** Larger than the error of its measurement, and some study ties it to the complaint. */
    CONTRIBUTES;

    /** The verdict written in a table. Throws {@link IllegalArgumentException} if unknown. */
    public static FactorVerdict of(String text) {
        return valueOf(text.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    /** The word used in tables, files and on screen. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** This verdict, or the ceiling when it lies above. */
    public FactorVerdict atMost(FactorVerdict ceiling) {
        return compareTo(ceiling) <= 0 ? this : ceiling;
    }
}
