package org.gerdy.cli.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.StringTokenizer;
import org.gerdy.cli.intake.Screen.Paragraph;

/** Fits a screen into a window: status above, keys below, the body between, page by page where it is too long. */
final class Layout {
    /** Longer lines are hard to read, however wide the window. */
    private static final int WIDEST = 96;
    /** Lines after the first stand no further in than this. */
    private static final int INDENT = 12;

    private Layout() {}

    /**
     * A window's worth of lines.
     *
     * @param heading which line is the heading
     * @param page which page of the body is shown, from 0
     * @param more whether there is another page
     * @param last whether this is the last page
     */
    record Drawn(List<String> lines, int heading, int page, boolean more, boolean last) {}

    /** The screen in so many columns and rows; pages count around. The last line is where the cursor stays. */
    static Drawn of(Screen screen, int columns, int rows, int page, String typed) {
        int width = Math.min(columns - 1, WIDEST);
        List<String> top = new ArrayList<>();
        screen.status()
                .forEach(line ->
                        top.addAll(wrapped("", line, width).stream().limit(2).toList()));
        top.add("-".repeat(width));
        int heading = top.size();
        top.add(cut(screen.heading(), width));
        top.add("");
        List<String> bottom = new ArrayList<>(keys(screen.keys(), width));
        List<String> body = new ArrayList<>();
        for (Paragraph paragraph : screen.body()) {
            body.addAll(wrapped(paragraph.lead(), paragraph.text(), width));
        }
        while (!body.isEmpty() && body.get(body.size() - 1).isEmpty()) {
            body.remove(body.size() - 1);
        }
        // Two lines more below: the message, and the one that is typed on.
        int room = Math.max(1, rows - top.size() - bottom.size() - 3);
        List<List<String>> parts = pages(body, room);
        int pages = parts.size();
        int shown = page % pages;
        List<String> lines = new ArrayList<>(top);
        List<String> part = parts.get(shown);
        lines.addAll(part);
        for (int i = part.size(); i < room; i++) {
            lines.add("");
        }
        lines.add(
                pages > 1
                        ? "-".repeat(width - 26) + " page " + (shown + 1) + " of " + pages + ", space turns"
                        : "-".repeat(width));
        lines.addAll(bottom);
        lines.add(cut(screen.message(), width));
        lines.add(cut((screen.entry().prompt().isEmpty() ? "> " : screen.entry().prompt()) + typed, width));
        return new Drawn(lines, heading, shown, pages > 1, shown == pages - 1);
    }

    /** Cut at the last empty line where that leaves two thirds of a page, so that no block begins at its foot. */
    private static List<List<String>> pages(List<String> body, int room) {
        List<List<String>> pages = new ArrayList<>();
        int from = 0;
        while (body.size() - from > room) {
            int gap = body.subList(from, from + room + 1).lastIndexOf("");
            int length = gap * 3 >= room * 2 ? gap : room;
            pages.add(body.subList(from, from + length));
            from += length + (length == gap ? 1 : 0);
        }
        pages.add(body.subList(from, body.size()));
        return pages;
    }

    private static List<String> keys(List<String> keys, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String key : keys) {
            if (!line.isEmpty() && line.length() + 3 + key.length() > width) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.isEmpty() ? "" : "   ").append(key);
        }
        lines.add(line.toString());
        return lines;
    }

    private static List<String> wrapped(String lead, String text, int width) {
        if (text.isEmpty()) {
            return List.of(cut(lead.stripTrailing(), width));
        }
        int indent = Math.min(lead.length(), INDENT);
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(lead);
        boolean fresh = true;
        StringTokenizer words = new StringTokenizer(text);
        while (words.hasMoreTokens()) {
            String word = cut(words.nextToken(), width - indent);
            if (!fresh && line.length() + 1 + word.length() > width) {
                lines.add(line.toString());
                line.setLength(0);
                line.append(" ".repeat(indent));
                fresh = true;
            }
            line.append(fresh ? "" : " ").append(word);
            fresh = false;
        }
        lines.add(line.toString());
        return lines;
    }

    private static String cut(String line, int width) {
        return line.length() <= width ? line : line.substring(0, Math.max(0, width - 3)) + "...";
    }
}
