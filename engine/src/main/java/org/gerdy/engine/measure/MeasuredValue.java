package org.gerdy.engine.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * The number made of one side's readings.
 *
 * @param value in the measure's unit; empty when it cannot be formed, and for observations
 * @param word the observation or grade, else empty
 * @param notes what to know of it, one sentence each
 */
public record MeasuredValue(OptionalDouble value, String word, List<String> notes) {
    /** Works the number out. Throws {@link IllegalArgumentException} with a sentence when the readings are impossible. */
    public static MeasuredValue of(MeasureDefinition measure, Readings readings) {
        List<String> notes = new ArrayList<>();
        return switch (measure.kind()) {
            case FORCE, TRIALS -> trials(measure, readings, notes);
            case DROP ->
                new MeasuredValue(
                        OptionalDouble.of(readings.trials("first").mean()
                                - readings.trials("second").mean()),
                        "",
                        notes);
            case RATIO ->
                new MeasuredValue(
                        OptionalDouble.of(Geometry.ratio(
                                readings.trials("part").mean(),
                                readings.trials("whole").mean())),
                        "",
                        notes);
            case RISE ->
                new MeasuredValue(
                        OptionalDouble.of(Geometry.inclination(
                                readings.trials("rise").mean(),
                                readings.trials("length").mean())),
                        "",
                        notes);
            case INDEX -> index(measure, readings, notes);
            case GRADE, CHOICE -> new MeasuredValue(OptionalDouble.empty(), readings.word(), notes);
            case LABORATORY ->
                throw new IllegalArgumentException(
                        "'" + measure.id() + "' is not measured at the bedside; leave it out.");
        };
    }

    private static MeasuredValue trials(MeasureDefinition measure, Readings readings, List<String> notes) {
        Trials trials = readings.trials("trials");
        int count = trials.values().size();
        if (count < measure.trials()) {
            notes.add(count + (count == 1 ? " trial" : " trials") + " recorded; the protocol asks for "
                    + measure.trials() + ".");
        }
        if (measure.retakeBeyond().isPresent()
                && trials.stillRising(measure.retakeBeyond().getAsDouble())) {
            notes.add("The last trial is the highest by more than "
                    + Plain.brief(measure.retakeBeyond().getAsDouble()) + " %; take one more.");
        }
        return new MeasuredValue(OptionalDouble.of(trials.value(measure.aggregate())), "", List.copyOf(notes));
    }

    private static MeasuredValue index(MeasureDefinition measure, Readings readings, List<String> notes) {
        List<OptionalInt> items = new ArrayList<>();
        for (OptionalDouble item : readings.series().getOrDefault("items", List.of())) {
            if (item.isPresent() && item.getAsDouble() != Math.rint(item.getAsDouble())) {
                throw new IllegalArgumentException(
                        "Item " + (items.size() + 1) + " is " + item.getAsDouble() + "; it takes a whole number.");
            }
            items.add(item.isPresent() ? OptionalInt.of((int) item.getAsDouble()) : OptionalInt.empty());
        }
        while (items.size() < measure.trials()) {
            items.add(OptionalInt.empty());
        }
        if (items.size() > measure.trials()) {
            throw new IllegalArgumentException(
                    "There are " + items.size() + " items; the index has " + measure.trials() + ".");
        }
        ItemIndex index = new ItemIndex(items, (int) measure.min().orElse(Integer.MIN_VALUE), (int)
                measure.max().orElse(Integer.MAX_VALUE));
        OptionalInt total = index.total();
        if (total.isEmpty()) {
            notes.add("No total: item "
                    + String.join(
                            ", ", index.missing().stream().map(String::valueOf).toList())
                    + " is missing.");
            return new MeasuredValue(OptionalDouble.empty(), "", List.copyOf(notes));
        }
        return new MeasuredValue(OptionalDouble.of(total.getAsInt()), "", List.copyOf(notes));
    }
}
