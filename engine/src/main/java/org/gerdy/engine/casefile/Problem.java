package org.gerdy.engine.casefile;

/**
 * One thing wrong with a file, told so that its author can mend it.
 *
 * @param file the file as the user named it
 * @param line counted from 1; 0 when the whole file is meant
 * @param column counted from 1; 0 when the whole line is meant
 * @param message one sentence: what is wrong and what to do
 */
public record Problem(String file, int line, int column, String message) implements Comparable<Problem> {
    @Override
    public int compareTo(Problem other) {
        int byLine = Integer.compare(line, other.line);
        int byColumn = Integer.compare(column, other.column);
        return byLine != 0 ? byLine : byColumn != 0 ? byColumn : message.compareTo(other.message);
    }

    @Override
    public String toString() {
        String place = line == 0 ? file : column == 0 ? file + ":" + line : file + ":" + line + ":" + column;
        return place + ": " + message;
    }
}
