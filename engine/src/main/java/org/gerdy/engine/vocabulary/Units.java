package org.gerdy.engine.vocabulary;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads quantities such as {@code 12 kgf} and converts between units of one dimension; never across dimensions. */
public final class Units {
    private static final Pattern QUANTITY = Pattern.compile("([+-]?[0-9]+(?:\\.[0-9]+)?)\\s*(.*)", Pattern.DOTALL);
    private static final double DAYS_A_YEAR = 365.25;

    /** Factor to the base unit of the dimension, and an offset for temperatures. */
    private record Unit(String dimension, double factor, double offset) {}

    /** One pound, foot, inch and mile by international definition (1959); standard gravity for kgf (CGPM 1901). */
    private static final Map<String, Unit> KNOWN = Map.ofEntries(
            unit("kg", "mass", 1),
            unit("g", "mass", 0.001),
            unit("lb", "mass", 0.45359237),
            unit("st", "mass", 14 * 0.45359237),
            unit("m", "length", 1),
            unit("cm", "length", 0.01),
            unit("mm", "length", 0.001),
            unit("km", "length", 1000),
            unit("in", "length", 0.0254),
            unit("ft", "length", 0.3048),
            unit("mi", "length", 1609.344),
            unit("N", "force", 1),
            unit("kgf", "force", 9.80665),
            unit("lbf", "force", 0.45359237 * 9.80665),
            unit("Nm", "torque", 1),
            unit("s", "time", 1),
            unit("min", "time", 60),
            unit("hours", "time", 3600),
            unit("days", "time", 86_400),
            unit("weeks", "time", 7 * 86_400),
            unit("months", "time", DAYS_A_YEAR / 12 * 86_400),
            unit("years", "time", DAYS_A_YEAR * 86_400),
            unit("degrees", "angle", 1),
            unit("km/week", "weekly distance", 1),
            unit("mi/week", "weekly distance", 1.609344),
            Map.entry("C", new Unit("temperature", 1, 0)),
            Map.entry("F", new Unit("temperature", 5.0 / 9.0, -32)));

    private static final Map<String, String> SPELLINGS = Map.ofEntries(
            Map.entry("day", "days"),
            Map.entry("d", "days"),
            Map.entry("week", "weeks"),
            Map.entry("wk", "weeks"),
            Map.entry("month", "months"),
            Map.entry("year", "years"),
            Map.entry("y", "years"),
            Map.entry("hour", "hours"),
            Map.entry("h", "hours"),
            Map.entry("minutes", "min"),
            Map.entry("minute", "min"),
            Map.entry("seconds", "s"),
            Map.entry("second", "s"),
            Map.entry("degree", "degrees"),
            Map.entry("deg", "degrees"),
            Map.entry("°", "degrees"),
            Map.entry("°C", "C"),
            Map.entry("°F", "F"),
            Map.entry("%", "percent"),
            Map.entry("miles", "mi"),
            Map.entry("mile", "mi"),
            Map.entry("inches", "in"),
            Map.entry("newton", "N"),
            Map.entry("lbs", "lb"),
            Map.entry("point", "points"));

    private Units() {}

    private static Map.Entry<String, Unit> unit(String name, String dimension, double factor) {
        return Map.entry(name, new Unit(dimension, factor, 0));
    }

    /** A number and the unit written behind it, which may be empty. */
    public record Written(double value, String unit) {}

    /** Splits {@code 12.5 kgf} into number and unit; empty when it does not start with a number. */
    public static Optional<Written> read(String text) {
        Matcher matcher = QUANTITY.matcher(text.strip());
        if (!matcher.matches()) {
            return Optional.empty();
        }
        String unit = matcher.group(2).strip();
        return Optional.of(new Written(Double.parseDouble(matcher.group(1)), SPELLINGS.getOrDefault(unit, unit)));
    }

    /** The value in another unit of the same dimension; empty when the two do not measure the same thing. */
    public static OptionalDouble convert(double value, String from, String to) {
        if (from.equals(to)) {
            return OptionalDouble.of(value);
        }
        Unit source = KNOWN.get(from);
        Unit target = KNOWN.get(to);
        if (source == null || target == null || !source.dimension().equals(target.dimension())) {
            return OptionalDouble.empty();
        }
        double base = (value + source.offset()) * source.factor();
        return OptionalDouble.of(base / target.factor() - target.offset());
    }

    /** The units that can stand for this one, itself first. */
    public static List<String> alternatives(String unit) {
        Unit known = KNOWN.get(unit);
        TreeSet<String> same = new TreeSet<>();
        if (known != null) {
            KNOWN.forEach((name, other) -> {
                if (other.dimension().equals(known.dimension()) && !name.equals(unit)) {
                    same.add(name);
                }
            });
        }
        return java.util.stream.Stream.concat(java.util.stream.Stream.of(unit), same.stream())
                .toList();
    }
}
