package org.gerdy.cli;

import java.util.List;
import org.apache.commons.text.WordUtils;

/** Plain text of a given width: headings, hanging paragraphs, labelled lines. */
final class Page {
    /** Columns of a terminal everybody has. */
    static final int WIDTH = 80;

    private final StringBuilder text = new StringBuilder();

    /** A heading with a rule under it, after a blank line. */
    Page heading(String heading) {
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
    Page hanging(String first, String paragraph) {
        return hanging(first, first.length(), paragraph);
    }

    /** A paragraph: the first line after {@code first}, the rest indented by {@code indent} columns. */
    Page hanging(String first, int indent, String paragraph) {
        String pad = " ".repeat(indent);
        boolean runsOn = first.length() > indent;
        // Wrapping drops leading spaces, so the margin of a first line that runs on is put back.
        String margin = runsOn
                ? first.substring(0, first.length() - first.stripLeading().length())
                : first;
        String wrapped = WordUtils.wrap(
                runsOn ? first.stripLeading() + paragraph.strip() : paragraph.strip(), WIDTH - indent, "\n", false);
        List<String> lines = wrapped.lines().toList();
        for (int i = 0; i < lines.size(); i++) {
            text.append((i > 0 ? pad : margin) + lines.get(i)).append('\n');
        }
        if (lines.isEmpty()) {
            text.append(first.stripTrailing()).append('\n');
        }
        return this;
    }

    /** One line as it is. */
    Page line(String line) {
        text.append(line.stripTrailing()).append('\n');
        return this;
    }

    /** A blank line. */
    Page blank() {
        text.append('\n');
        return this;
    }

    @Override
    public String toString() {
        return text.toString();
    }
}
