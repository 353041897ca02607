package org.gerdy.cli.intake;

import java.util.List;

/**
 * What the clinician sees at one moment, independent of where it is shown.
 *
 * @param status lines at the top: whose case, how it stands
 * @param heading what this screen is about
 * @param body paragraphs, the most important first
 * @param keys what can be pressed, each key once
 * @param entry what kind of input is awaited
 * @param message one line about the last thing done, may be empty
 */
public record Screen(
        List<String> status, String heading, List<Paragraph> body, List<String> keys, Entry entry, String message) {
    /** A paragraph: its first line after {@code lead}, the rest indented to the same column. Both empty is a blank line. */
    public record Paragraph(String lead, String text) {
        /** A blank line. */
        public static final Paragraph BLANK = new Paragraph("", "");
    }

    /**
     * The input awaited.
     *
     * @param kind one key, a number typed out, or free text
     * @param choices how many numbered choices are offered; 0 for none
     * @param prompt said before what is typed
     * @param whole whether 'none' may be answered only when every page was in sight
     */
    public record Entry(Kind kind, int choices, String prompt, boolean whole) {
        /** What is typed. */
        public enum Kind {
            KEY,
            NUMBER,
            TEXT
        }

        static Entry key() {
            return new Entry(Kind.KEY, 0, "", false);
        }

        static Entry choice(int choices) {
            return new Entry(Kind.KEY, choices, "", false);
        }

        /** Several questions, none of which may be answered unseen. */
        static Entry several(int questions) {
            return new Entry(Kind.KEY, questions, "", true);
        }

        static Entry number(String prompt) {
            return new Entry(Kind.NUMBER, 0, prompt, false);
        }

        /** Free text. */
        public static Entry text(String prompt) {
            return new Entry(Kind.TEXT, 0, prompt, false);
        }
    }
}
