package org.gerdy.cli.document;

import java.util.List;

/**
 * What a document says, before anything is said about how it looks.
 *
 * @param title the heading of the whole
 * @param subtitle one line under it
 * @param sections in reading order
 * @param footer small print at the end
 * @param print for whom it is set
 */
public record Document(String title, String subtitle, List<Section> sections, List<String> footer, Print print) {
    /** A page to hand over, in letters of ordinary size. */
    public Document(String title, String subtitle, List<Section> sections, List<String> footer) {
        this(title, subtitle, sections, footer, Print.ORDINARY);
    }

    /** What stands at the foot of every sheet; on a page for a clinician's file the small print as well. */
    public String foot() {
        return print == Print.CLOSE ? subtitle + ". " + String.join(" ", footer) : subtitle;
    }

    /** The size of the letters. */
    public enum Print {
        ORDINARY,
        /** For a clinician's file, on fewer sheets. */
        CLOSE
    }

    /**
     * A part with a heading.
     *
     * @param id unique in the document, a word of letters and hyphens
     */
    public record Section(String id, String heading, List<Block> blocks) {}

    /** A piece of a section. */
    public sealed interface Block {}

    /** A paragraph. */
    public record Para(String text) implements Block {}

    /** A paragraph in small letters: a long list for reference. */
    public record Fine(String text) implements Block {}

    /** A sentence that must be seen first. */
    public record Lead(String text) implements Block {}

    /** A heading inside a section. */
    public record Heading(String text) implements Block {}

    /** A list. */
    public record Bullets(List<String> items) implements Block {}

    /** A table with a row for each thing; the first cell of a row names it. */
    public record Grid(String caption, List<String> head, List<List<String>> rows) implements Block {}

    /**
     * A drawing of ours.
     *
     * @param svg the drawing, with its own title and description
     * @param caption said under it
     * @param words what it shows, line by line, where it cannot be seen; empty where a table beside it says it all
     */
    public record Picture(String svg, String caption, List<String> words) implements Block {}

    /**
     * Something to do, with its drawing.
     *
     * @param svg the drawing, or empty
     */
    public record Card(String title, String svg, List<String> lines) implements Block {}

    /** A line to be filled in by hand. */
    public record Blank(String label) implements Block {}
}
