package org.gerdy.engine.knowledge;

/** One work of the bibliography. */
public record Source(
        String key,
        String authors,
        String year,
        String title,
        String publishedIn,
        String identifier,
        String kind,
        String basis,
        String note) {

    /** The work in one line, as far as it was captured. */
    public String citation() {
        StringBuilder line = new StringBuilder();
        if (!authors.isEmpty()) {
            line.append(authors).append(authors.endsWith(".") ? " " : ". ");
        }
        line.append(title).append(title.endsWith(".") ? "" : ".");
        if (!publishedIn.isEmpty()) {
            line.append(' ').append(publishedIn).append('.');
        }
        if (!year.isEmpty()) {
            line.append(' ').append(year).append('.');
        }
        if (!identifier.isEmpty()) {
            line.append(' ').append(identifier);
        }
        return line.toString();
    }
}
