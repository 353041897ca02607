package org.gerdy.engine.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.Units;

/**
 * Reads what a clinician wrote down for one measure. A length or force without its unit, in a unit the measure does not
 * take, or in two units within one set is refused: nothing is converted that was not asked for.
 */
public final class MeasureText {
    private static final Set<String> LEVER_UNITS = Set.of("cm", "m");
    private static final double LONGEST_LEVER = 1.5;
    private static final int WORST_PAIN = 10;
    private static final String NOT_SCORED = "-";

    private final MeasureDefinition measure;

    /** Reads for this measure. */
    public MeasureText(MeasureDefinition measure) {
        this.measure = measure;
    }

    /** One series of readings; {@code -} stands for an item that was not scored. Throws {@link IllegalArgumentException} with a sentence. */
    public List<OptionalDouble> series(List<String> texts) {
        List<OptionalDouble> values = new ArrayList<>();
        String unit = "";
        for (String text : texts) {
            if (measure.kind() == MeasureKind.INDEX && text.strip().equals(NOT_SCORED)) {
                values.add(OptionalDouble.empty());
                continue;
            }
            Units.Written written = Units.read(text)
                    .orElseThrow(() -> new IllegalArgumentException(
                            "'" + text + "' is not a number" + withUnit() + "; correct it."));
            String given = unit(text, written);
            if (!unit.isEmpty() && !unit.equals(given)) {
                throw new IllegalArgumentException("One set of trials is in '" + unit + "' and in '" + given
                        + "'; write all of them in one unit.");
            }
            unit = given;
            double value = Units.convert(written.value(), given, measure.readingUnit())
                    .orElseThrow(() -> new IllegalArgumentException(wrongUnit(given)));
            if (value < measure.min().orElse(Double.NEGATIVE_INFINITY)
                    || value > measure.max().orElse(Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException("'" + text + "' is outside "
                        + Plain.number(measure.min().orElse(Double.NEGATIVE_INFINITY)) + " to "
                        + Plain.number(measure.max().orElse(Double.POSITIVE_INFINITY)) + " " + measure.readingUnit()
                        + "; check the number and its unit.");
            }
            values.add(OptionalDouble.of(value));
        }
        if (values.isEmpty()) {
            throw new IllegalArgumentException("There is no reading" + withUnit() + "; give at least one.");
        }
        return List.copyOf(values);
    }

    private String unit(String text, Units.Written written) {
        if (!written.unit().isEmpty()) {
            if (!measure.units().contains(written.unit())) {
                throw new IllegalArgumentException("'" + text + "': " + wrongUnit(written.unit()));
            }
            return written.unit();
        }
        if (Units.alternatives(measure.readingUnit()).size() > 1) {
            throw new IllegalArgumentException(
                    "'" + text + "' has no unit; write " + String.join(" or ", measure.units()) + " behind it.");
        }
        return measure.readingUnit();
    }

    private String wrongUnit(String unit) {
        return "'" + measure.id() + "' is not taken in '" + unit + "'; it takes " + String.join(" or ", measure.units())
                + ".";
    }

    private String withUnit() {
        return measure.units().isEmpty() ? "" : " in " + String.join(" or ", measure.units());
    }

    /** An observation or grade. */
    public String word(String text) {
        String word = text.strip();
        if (!measure.choices().contains(word)) {
            throw new IllegalArgumentException("'" + word + "' is not an answer of '" + measure.id() + "'; it takes "
                    + String.join(", ", measure.choices()) + "." + hint(word, measure.choices()));
        }
        return word;
    }

    /** A lever arm, in metres. */
    public double lever(String text) {
        Optional<Units.Written> written = Units.read(text);
        if (written.isEmpty() || !LEVER_UNITS.contains(written.get().unit())) {
            throw new IllegalArgumentException("The lever '" + text + "' needs a number with cm or m behind it.");
        }
        double metres =
                Units.convert(written.get().value(), written.get().unit(), "m").orElseThrow();
        if (!(metres > 0) || metres > LONGEST_LEVER) {
            throw new IllegalArgumentException("A lever of '" + text + "' cannot be; check the number and its unit.");
        }
        return metres;
    }

    /** Pain during the test, 0 to 10. */
    public double pain(String text) {
        Optional<Units.Written> written = Units.read(text);
        if (written.isEmpty()
                || !written.get().unit().isEmpty()
                || written.get().value() < 0
                || written.get().value() > WORST_PAIN) {
            throw new IllegalArgumentException("The pain '" + text + "' takes a bare number from 0 to 10.");
        }
        return written.get().value();
    }

    /** A word of the set-up, checked where the measure lists what it takes. */
    public String setUp(String key, String text) {
        List<String> words = measure.setUp().get(key);
        if (words == null) {
            throw new IllegalArgumentException("'" + key + "' is not recorded with '" + measure.id() + "'; it takes "
                    + String.join(", ", measure.setUp().keySet()) + "."
                    + hint(key, List.copyOf(measure.setUp().keySet())));
        }
        if (!words.isEmpty() && !words.contains(text.strip())) {
            throw new IllegalArgumentException("'" + text + "' is not a " + key + " of '" + measure.id()
                    + "'; it takes " + String.join(", ", words) + "." + hint(text, words));
        }
        return text.strip();
    }

    private static String hint(String word, List<String> known) {
        return Catalogue.nearest(word, known)
                .map(nearest -> " Did you mean '" + nearest + "'?")
                .orElse("");
    }
}
