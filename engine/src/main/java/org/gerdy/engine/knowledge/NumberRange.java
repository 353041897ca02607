package org.gerdy.engine.knowledge;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number of a table that may be given as a range, {@code 3} or {@code 2-3}; both ends belong to it.
 *
 * @param low the lower end
 * @param high the upper end, not below {@code low}
 */
public record NumberRange(double low, double high) {
    private static final Pattern WRITTEN =
            Pattern.compile("([0-9]+(?:\\.[0-9]+)?)(?:\\s*-\\s*([0-9]+(?:\\.[0-9]+)?))?");

    /** Throws {@link IllegalArgumentException} when the ends are the wrong way round. */
    public NumberRange {
        if (low > high) {
            throw new IllegalArgumentException("The range " + low + "-" + high + " has its ends the wrong way round.");
        }
    }

    /** The range of a cell; empty when blank. Throws {@link KnowledgeException} for anything else than a range. */
    public static Optional<NumberRange> of(Table.Row row, String column) {
        String text = row.text(column);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Matcher matcher = WRITTEN.matcher(text);
        if (!matcher.matches()) {
            throw row.wrong("'" + text + "' in '" + column + "' should be a number or a range such as 2-3.");
        }
        double low = Double.parseDouble(matcher.group(1));
        String end = matcher.group(2);
        return Optional.of(new NumberRange(low, end == null ? low : Double.parseDouble(end)));
    }
}
