package org.gerdy.engine.measure;

import java.util.OptionalDouble;

/**
 * A number or a printed range of a table, either end of which may be open: {@code 5.8}, {@code 10.9..12.9},
 * {@code 0.70..}, {@code ..27}.
 *
 * @param low lower end, if printed
 * @param high upper end, if printed
 * @param text as it stands in the table
 */
public record Span(OptionalDouble low, OptionalDouble high, String text) {
    /** Reads a cell. Throws {@link IllegalArgumentException} when it is neither a number nor a range. */
    public static Span of(String text) {
        int dots = text.indexOf("..");
        try {
            if (dots < 0) {
                OptionalDouble value = OptionalDouble.of(Double.parseDouble(text));
                return new Span(value, value, text);
            }
            OptionalDouble low = end(text.substring(0, dots));
            OptionalDouble high = end(text.substring(dots + 2));
            boolean open = low.isEmpty() && high.isEmpty();
            if (open || low.orElse(Double.NEGATIVE_INFINITY) > high.orElse(Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException("'" + text + "' is not a range.");
            }
            return new Span(low, high, text);
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException("'" + text + "' is neither a number nor a range.", e);
        }
    }

    private static OptionalDouble end(String text) {
        return text.isBlank() ? OptionalDouble.empty() : OptionalDouble.of(Double.parseDouble(text.strip()));
    }

    /** As read aloud, such as {@code 10.9 to 12.9}, {@code 0.70 or more}, {@code up to 27}. */
    public String words() {
        int dots = text.indexOf("..");
        if (dots < 0) {
            return text;
        }
        String from = text.substring(0, dots).strip();
        String to = text.substring(dots + 2).strip();
        return from.isEmpty() ? "up to " + to : to.isEmpty() ? from + " or more" : from + " to " + to;
    }

    /** The larger end: of two printed errors the one that calls less real. */
    public OptionalDouble cautious() {
        return high.isPresent() ? high : low;
    }
}
