package org.gerdy.engine.vocabulary;

import java.util.Locale;

/** What kind of answer a finding takes. */
public enum Kind {
    /** Present, absent or unable. */
    YES_NO,
    /** A number in the finding's unit. */
    NUMBER,
    /** A whole or half step from 0 to 10. */
    SCALE_0_10,
    /** A length of time in the finding's unit. */
    DURATION,
    /** One of the listed choices. */
    CHOICE,
    /** A calendar day. */
    DATE;

    /** The kind written in the catalogue, such as {@code yes-no}. Throws {@link IllegalArgumentException} if unknown. */
    public static Kind of(String text) {
        for (Kind kind : values()) {
            if (kind.name().toLowerCase(Locale.ROOT).replace('_', '-').equals(text)) {
                return kind;
            }
        }
        throw new IllegalArgumentException(
                "'" + text + "' is not a kind of answer; use yes-no, number, scale-0-10, duration, choice or date.");
    }

    /** Whether an answer of this kind is a quantity. */
    public boolean isQuantity() {
        return this == NUMBER || this == SCALE_0_10 || this == DURATION;
    }
}
