package org.gerdy.engine.vocabulary;

import java.util.Locale;

/** Where a clinical statement comes from. */
public enum Basis {
    /** Read in the named source. */
    PUBLISHED,
    /** Recalled from memory; the source is named but was not opened for it. */
    RECALLED,
    /** Taught and done widely; no source. */
    COMMON_PRACTICE,
    /** This project's own judgement, always with wide bounds. */
    JUDGEMENT;

    /** The basis written in a table, such as {@code common-practice}. Throws {@link IllegalArgumentException} if unknown. */
    public static Basis of(String text) {
        for (Basis basis : values()) {
            if (basis.word().equals(text)) {
                return basis;
            }
        }
        throw new IllegalArgumentException(
                "'" + text + "' is not a basis; use published, recalled, common-practice or judgement.");
    }

    /** The word used in tables and on screen. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
