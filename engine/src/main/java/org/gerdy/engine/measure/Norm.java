package org.gerdy.engine.measure;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.gerdy.engine.vocabulary.Basis;

/**
 * What a measure reads in a described group of people.
 *
 * @param id row id
 * @param measure the measure
 * @param sex {@code female}, {@code male}, or empty for both
 * @param ageLow youngest completed year of the group, if stated
 * @param ageHigh oldest completed year of the group, if stated
 * @param mean mean at age 0 when {@code perYear} is given, else mean of the group
 * @param perYear change of the mean with each year of age, if an equation was printed
 * @param sd standard deviation
 * @param low lower end of the range called normal
 * @param high upper end of the range called normal
 * @param unit unit of all these numbers
 * @param setUp how it must have been measured to be compared, by set-up word
 * @param population who was measured
 * @param compared whether values are held against it; false for rows kept for the record
 * @param sources bibliography keys
 * @param basis where the numbers come from
 * @param note why it is used, or not
 */
public record Norm(
        String id,
        String measure,
        String sex,
        OptionalDouble ageLow,
        OptionalDouble ageHigh,
        OptionalDouble mean,
        OptionalDouble perYear,
        OptionalDouble sd,
        OptionalDouble low,
        OptionalDouble high,
        String unit,
        Map<String, String> setUp,
        String population,
        boolean compared,
        List<String> sources,
        Basis basis,
        String note) {

    /** Whether the person belongs to the group; an unknown sex or age only fits a group that does not ask. */
    public boolean covers(String personSex, OptionalDouble age) {
        if (!sex.isEmpty() && !sex.equals(personSex)) {
            return false;
        }
        if (perYear.isPresent() && age.isEmpty()) {
            return false;
        }
        boolean bounded = ageLow.isPresent() || ageHigh.isPresent();
        if (!bounded) {
            return true;
        }
        return age.isPresent()
                && age.getAsDouble() >= ageLow.orElse(0)
                && Math.floor(age.getAsDouble()) <= ageHigh.orElse(Double.POSITIVE_INFINITY);
    }

    /** Whether it was measured the same way, word for word; what was not recorded does not match. */
    public boolean sameSetUp(Map<String, String> recorded) {
        return setUp.entrySet().stream().allMatch(entry -> entry.getValue().equals(recorded.get(entry.getKey())));
    }

    /** The mean expected at this age. */
    public OptionalDouble expected(OptionalDouble age) {
        if (mean.isEmpty() || perYear.isEmpty()) {
            return mean;
        }
        return age.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(mean.getAsDouble() + perYear.getAsDouble() * age.getAsDouble());
    }

    /** Standard deviations above the mean; empty without mean or standard deviation. */
    public OptionalDouble z(double value, OptionalDouble age) {
        OptionalDouble expected = expected(age);
        return expected.isEmpty() || sd.isEmpty() || sd.getAsDouble() <= 0
                ? OptionalDouble.empty()
                : OptionalDouble.of((value - expected.getAsDouble()) / sd.getAsDouble());
    }

    /** The group and its numbers in one line, such as {@code 1.62 (SD 0.38) Nm/kg, healthy novice runners}. */
    public String text(OptionalDouble age) {
        StringBuilder text = new StringBuilder();
        OptionalDouble expected = expected(age);
        if (expected.isPresent()) {
            text.append(Plain.number(expected.getAsDouble()));
            if (sd.isPresent()) {
                text.append(" (SD ").append(Plain.number(sd.getAsDouble())).append(")");
            }
        }
        if (low.isPresent() || high.isPresent()) {
            text.append(text.isEmpty() ? "" : ", ")
                    .append("range ")
                    .append(low.isPresent() ? Plain.number(low.getAsDouble()) : "")
                    .append(" to ")
                    .append(high.isPresent() ? Plain.number(high.getAsDouble()) : "");
        }
        text.append(unit.isEmpty() ? "" : " " + unit);
        text.append(population.isEmpty() ? "" : ", " + population);
        return text.toString();
    }
}
