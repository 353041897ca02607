package org.gerdy.engine.casefile;

import java.time.LocalDate;
import java.util.Locale;

/** What was recorded for one finding, on one side or for the person. */
public sealed interface Answer {
    /** The answer as written in a file. */
    String text();

    /** Answer to a yes-or-no finding. */
    enum State implements Answer {
        PRESENT,
        ABSENT,
        /** Tried and could not be done. */
        UNABLE;

        private final String text = name().toLowerCase(Locale.ROOT);

        @Override
        public String text() {
            return text;
        }
    }

    /** A choice of the finding's list. */
    record Choice(String choice) implements Answer {
        @Override
        public String text() {
            return choice;
        }
    }

    /**
     * A number.
     *
     * @param value in the finding's own unit
     * @param text as it was written, with its unit
     */
    record Quantity(double value, String text) implements Answer {}

    /** A calendar day. */
    record Day(LocalDate date) implements Answer {
        @Override
        public String text() {
            return date.toString();
        }
    }
}
