package org.gerdy.engine.drill;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How a made patient departs from the book. */
public enum Difficulty {
    /** The telling signs are there. */
    TEXTBOOK,
    /** The strongest signs are not there. */
    ATYPICAL,
    /** A second condition shows its own signs. */
    TWO_AT_ONCE,
    /** Some answers no red flag needs cannot be given. */
    MISSING_ANSWERS,
    /** Signs of another condition mislead. */
    RED_HERRING;

    /** The word used on the command line and in files, such as {@code red-herring}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The difficulty of this word. */
    public static Optional<Difficulty> of(String word) {
        return Arrays.stream(values()).filter(one -> one.word().equals(word)).findFirst();
    }
}
