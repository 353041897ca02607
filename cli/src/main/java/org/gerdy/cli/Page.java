package org.gerdy.cli;

import java.util.StringTokenizer;

/** Plain text of a given width: headings, hanging paragraphs, labelled lines. */
public final class Page {
    /** Columns of a terminal everybody has. */
    static final int WIDTH = 80;

    private final StringBuilder text = new StringBuilder();

    /** A heading with a rule under it, after a blank line. */
    public Page heading(String heading) {
        if (!text.isEmpty()) {
            text.append('\n');
        }
        text.append(heading)
                .append('\n')
                .append("-".repeat(Math.min(heading.length(), WIDTH)))
                .append('\n');
        return this;
    }

    /** A paragraph: the first line after {@code first}, the rest indented to the same column. */
    public Page hanging(String first, String paragraph) {
        return hanging(first, first.length(), paragraph);
    }

    /** A paragraph: the first line after {@code first}, the rest indented by {@code indent} columns. */
    public Page hanging(String first, int indent, String paragraph) {
        StringBuilder line = new StringBuilder(first);
        boolean fresh = true;
        // A word longer than the line is broken; nothing runs off the screen.
        StringTokenizer words =
                new StringTokenizer(paragraph.replaceAll("(\\S{" + (WIDTH - indent) + "})(?=\\S)", "$1 "));
        while (words.hasMoreTokens()) {
            String word = words.nextToken();
            if (!fresh && line.length() + 1 + word.length() > WIDTH) {
                line(line.toString());
                line.setLength(0);
                line.append(" ".repeat(indent));
                fresh = true;
            }
            line.append(fresh ? "" : " ").append(word);
            fresh = false;
        }
        return line(line.toString());
    }

    /** One line as it is. */
    public Page line(String line) {
        text.append(line.stripTrailing()).append('\n');
        return this;
    }

    /** A blank line. */
    public Page blank() {
        text.append('\n');
        return this;
    }

    @Override
    public String toString() {
        return text.toString();
    }
}
