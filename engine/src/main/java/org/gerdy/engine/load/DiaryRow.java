package org.gerdy.engine.load;

import de.siegmar.fastcsv.reader.CsvRecord;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.casefile.Problem;
import org.gerdy.engine.vocabulary.Units;

/** One row of a diary, its cells read with their units. */
final class DiaryRow {
    private static final Pattern CLOCK = Pattern.compile("([0-9]{1,3}):([0-9]{2}):([0-9]{2})");
    private static final Map<String, String> DISTANCES =
            Map.of("distance_km", "km", "distance_mi", "mi", "distance_m", "m");
    private static final Set<String> DISTANCE_UNITS = Set.of("km", "mi", "m");
    private static final Set<String> TIME_UNITS = Set.of("min", "hours", "s");
    private static final long FURTHEST_METRES = 1_000_000;
    private static final long LONGEST_SECONDS = 7 * 86_400;
    private static final int HOUR = 3600;
    private static final int MINUTE = 60;

    private final String file;
    private final int line;
    private final CsvRecord cells;
    private final Map<String, Integer> columns;
    private final List<Problem> problems;

    DiaryRow(String file, int line, CsvRecord cells, Map<String, Integer> columns, List<Problem> problems) {
        this.file = file;
        this.line = line;
        this.cells = cells;
        this.columns = columns;
        this.problems = problems;
    }

    int line() {
        return line;
    }

    Optional<String> text(String column) {
        Integer place = columns.get(column);
        if (place == null) {
            return Optional.empty();
        }
        String text = cells.getField(place).strip();
        return text.isEmpty() ? Optional.empty() : Optional.of(text);
    }

    OptionalDouble between(String column, double low, double high) {
        Optional<String> text = text(column);
        if (text.isEmpty()) {
            return OptionalDouble.empty();
        }
        Optional<Units.Written> written = Units.read(text.get());
        if (written.isEmpty()
                || !written.get().unit().isEmpty()
                || written.get().value() < low
                || written.get().value() > high) {
            problem("'" + text.get() + "' in '" + column + "' is not a bare number from " + (long) low + " to "
                    + (long) high + ".");
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(written.get().value());
    }

    /** Distance in whole metres. */
    OptionalLong metres() {
        OptionalLong metres = OptionalLong.empty();
        String from = "";
        for (String column : List.of("distance", "distance_km", "distance_mi", "distance_m")) {
            Optional<String> text = text(column);
            if (text.isEmpty()) {
                continue;
            }
            if (!from.isEmpty()) {
                problem("The distance stands in '" + from + "' and in '" + column + "'; keep one.");
                return OptionalLong.empty();
            }
            from = column;
            Optional<Units.Written> written = Units.read(text.get());
            String columnUnit = DISTANCES.getOrDefault(column, "");
            if (written.isEmpty()) {
                problem("'" + text.get() + "' in '" + column
                        + "' is not a distance; write a number with a decimal point.");
                return OptionalLong.empty();
            }
            String unit =
                    written.get().unit().isEmpty() ? columnUnit : written.get().unit();
            if (unit.isEmpty()) {
                problem("'" + text.get() + "' has no unit; write km or mi behind it, or name the column distance_km.");
                return OptionalLong.empty();
            }
            if (!DISTANCE_UNITS.contains(unit) || (!columnUnit.isEmpty() && !unit.equals(columnUnit))) {
                problem("'" + text.get() + "' does not belong in the column '" + column + "'; correct the unit.");
                return OptionalLong.empty();
            }
            double value = Units.convert(written.get().value(), unit, "m").orElseThrow();
            if (value < 0 || value > FURTHEST_METRES) {
                problem("A distance of '" + text.get() + "' cannot be; check the number and its unit.");
                return OptionalLong.empty();
            }
            metres = OptionalLong.of(Math.round(value));
        }
        return metres;
    }

    /** Duration in seconds. */
    OptionalLong seconds() {
        Optional<String> minutes = text("duration_min");
        Optional<String> clock = text("duration");
        if (minutes.isPresent() && clock.isPresent()) {
            problem("The duration stands in 'duration' and in 'duration_min'; keep one.");
            return OptionalLong.empty();
        }
        if (minutes.isPresent()) {
            OptionalDouble value = between("duration_min", 0, LONGEST_SECONDS / (double) MINUTE);
            return value.isPresent() ? OptionalLong.of(Math.round(value.getAsDouble() * MINUTE)) : OptionalLong.empty();
        }
        return clock.isPresent() ? duration(clock.get()) : OptionalLong.empty();
    }

    private OptionalLong duration(String text) {
        Matcher matcher = CLOCK.matcher(text);
        if (matcher.matches()) {
            long minutes = Long.parseLong(matcher.group(2));
            long total = Long.parseLong(matcher.group(1)) * HOUR + minutes * MINUTE + Long.parseLong(matcher.group(3));
            if (minutes < MINUTE && Long.parseLong(matcher.group(3)) < MINUTE && total <= LONGEST_SECONDS) {
                return OptionalLong.of(total);
            }
        }
        Optional<Units.Written> written = Units.read(text);
        if (written.isPresent() && TIME_UNITS.contains(written.get().unit())) {
            double value = Units.convert(written.get().value(), written.get().unit(), "s")
                    .orElseThrow();
            if (value >= 0 && value <= LONGEST_SECONDS) {
                return OptionalLong.of(Math.round(value));
            }
        }
        problem(
                "'" + text
                        + "' is not a duration; write h:mm:ss such as 0:45:00, or a number with min, since 1:05 can be read two ways.");
        return OptionalLong.empty();
    }

    void problem(String message) {
        problems.add(new Problem(file, line, 0, message));
    }
}
