package org.gerdy.cli.document;

import gg.jte.html.OwaspHtmlTemplateOutput;
import gg.jte.output.StringOutput;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.StringTokenizer;
import java.util.stream.Collectors;
import org.gerdy.cli.document.html.JtedocumentGenerated;

/** A document as HTML or plain text. */
public final class Rendering {
    /** Columns of a terminal everybody has. */
    private static final int WIDTH = 80;

    private Rendering() {}

    /**
     * One self-contained page: HTML that is also well-formed XML, no script, nothing fetched.
     *
     * @param paper {@code A4} or {@code letter} to fix the size of the sheet, empty to leave it to the printer
     */
    public static String html(Document document, String paper) {
        StringOutput out = new StringOutput();
        JtedocumentGenerated.render(new OwaspHtmlTemplateOutput(out), null, document, paper);
        return out.toString();
    }

    /** Plain text of 80 columns. */
    public static String text(Document document) {
        return wrapped(lines(document));
    }

    /** Sections alone, as plain text to stand inside another page. */
    static String sections(List<Document.Section> sections) {
        Document bare = new Document("", "", sections, List.of());
        return wrapped(
                lines(bare).lines().skip(2).filter(line -> !line.equals("## ")).collect(Collectors.joining("\n")));
    }

    private static String lines(Document document) {
        StringOutput out = new StringOutput();
        org.gerdy.cli.document.text.JtedocumentGenerated.render(out, null, document);
        return out.toString();
    }

    private static String wrapped(String lines) {
        StringBuilder text = new StringBuilder();
        lines.lines().forEach(line -> line(line, text));
        return text.toString();
    }

    /**
     * A row of a table as one line: its first cell, then each further cell after its column's heading; a question has
     * its answer behind it.
     */
    public static String row(List<String> head, List<String> cells) {
        if (cells.size() == 2 && cells.get(0).endsWith("?")) {
            return cells.get(0) + " " + cells.get(1);
        }
        List<String> parts = new ArrayList<>();
        for (int i = 1; i < cells.size(); i++) {
            if (!cells.get(i).isEmpty()) {
                parts.add(head.get(i).toLowerCase(Locale.ROOT) + " "
                        + cells.get(i).replaceAll("\\.$", ""));
            }
        }
        return cells.get(0) + (parts.isEmpty() ? "" : ": " + String.join("; ", parts));
    }

    private static void line(String line, StringBuilder text) {
        if (line.startsWith("# ") || line.startsWith("## ")) {
            String heading = line.substring(line.indexOf(' ') + 1);
            text.append(text.isEmpty() ? "" : "\n");
            if (!heading.isEmpty()) {
                wrap(heading, 0, text);
                text.append((line.startsWith("## ") ? "-" : "=").repeat(Math.min(heading.length(), WIDTH)))
                        .append('\n');
            }
        } else {
            int indent = line.startsWith("- ") || line.startsWith("* ") || line.startsWith("  ") ? 2 : 0;
            wrap(line, indent, text);
        }
    }

    private static void wrap(String line, int indent, StringBuilder text) {
        StringBuilder now = new StringBuilder(line.substring(0, indent));
        boolean fresh = true;
        StringTokenizer words = new StringTokenizer(line.substring(indent));
        while (words.hasMoreTokens()) {
            String word = words.nextToken();
            if (!fresh && now.length() + 1 + word.length() > WIDTH) {
                text.append(now.toString().stripTrailing()).append('\n');
                now.setLength(0);
                now.append(" ".repeat(indent));
                fresh = true;
            }
            now.append(fresh ? "" : " ").append(word);
            fresh = false;
        }
        text.append(now.toString().stripTrailing()).append('\n');
    }
}
