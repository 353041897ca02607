package org.gerdy.engine.measure;

import java.util.Locale;

/** How the readings of a measure become its number. */
public enum MeasureKind {
    /** Force trials; the best or the mean, and with lever, mass and height the scaled strengths. */
    FORCE,
    /** Trials of one quantity; the best or the mean. */
    TRIALS,
    /** Two series: mean of the first minus mean of the second. */
    DROP,
    /** Two series: mean of the first over mean of the second. */
    RATIO,
    /** Two series, rise and length: the angle to the horizontal in degrees. */
    RISE,
    /** Items, each a whole number inside bounds; their sum. */
    INDEX,
    /** A grade on an ordered list; ranks, not amounts. */
    GRADE,
    /** One of a list of observations. */
    CHOICE,
    /** Not done at the bedside; here so that norms and evidence have a name to hang on. */
    LABORATORY;

    /** The kind written in a table. Throws {@link IllegalArgumentException} if unknown. */
    public static MeasureKind of(String text) {
        return valueOf(text.toUpperCase(Locale.ROOT));
    }

    /** Names of the series of readings, in order. */
    public java.util.List<String> series() {
        return switch (this) {
            case DROP -> java.util.List.of("first", "second");
            case RATIO -> java.util.List.of("part", "whole");
            case RISE -> java.util.List.of("rise", "length");
            case INDEX -> java.util.List.of("items");
            default -> java.util.List.of("trials");
        };
    }
}
