package org.gerdy.engine.vocabulary;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** How soon somebody else must see the patient. Declared from lowest to highest, so the natural order is the ladder. */
public enum Urgency {
    /** Nothing found that needs anybody else. */
    MANAGE_HERE,
    /** Refer by the ordinary route. */
    ROUTINE_REFERRAL,
    /** Days to two weeks. */
    URGENT,
    /** Before the day ends. */
    SAME_DAY,
    /** Now. */
    EMERGENCY;

    /** The level written in tables and files, such as {@code same-day}. */
    public static Optional<Urgency> of(String text) {
        return Arrays.stream(values())
                .filter(urgency -> urgency.word().equals(text))
                .findFirst();
    }

    /** The word used in tables, files and on screen. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** All words, highest first, for messages. */
    public static List<String> words() {
        return Arrays.stream(values())
                .sorted((a, b) -> b.compareTo(a))
                .map(Urgency::word)
                .toList();
    }

    /** Steps above the lowest level: 0 for manage here, 4 for emergency. */
    public int step() {
        return switch (this) {
            case MANAGE_HERE -> 0;
            case ROUTINE_REFERRAL -> 1;
            case URGENT -> 2;
            case SAME_DAY -> 3;
            case EMERGENCY -> 4;
        };
    }

    /** The higher of the two. */
    public Urgency orHigher(Urgency other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
