package org.gerdy.engine.measure;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One measure a clinician can take.
 *
 * @param id stable name
 * @param label as shown
 * @param kind how readings become a number
 * @param perSide taken on each side
 * @param finding the finding that holds its single final value, empty when there is none
 * @param units units a reading may be written in, the first is the measure's own; empty for choices and grades
 * @param trials how many readings are wanted; for an index the number of items
 * @param aggregate which number stands for the trials
 * @param choices observations or grades, grades in rising order
 * @param min smallest reading that can be true, in the first unit
 * @param max largest reading that can be true, in the first unit
 * @param retakeBeyond when the last trial tops the others by more than this percentage, one more is due
 * @param setUp what must be kept the same, with the words it takes; an empty list takes any text
 * @param steps the protocol, one step an item
 * @param sources bibliography keys of the protocol
 * @param note for the reader of a value
 * @param example how it is written down on a command line, with invented readings; empty for what is not measured
 */
public record MeasureDefinition(
        String id,
        String label,
        MeasureKind kind,
        boolean perSide,
        Optional<String> finding,
        List<String> units,
        int trials,
        Trials.Aggregate aggregate,
        List<String> choices,
        OptionalDouble min,
        OptionalDouble max,
        OptionalDouble retakeBeyond,
        Map<String, List<String>> setUp,
        List<String> steps,
        List<String> sources,
        String note,
        String example) {

    /** The unit a single reading is kept in; empty for choices and grades. */
    public String readingUnit() {
        return units.isEmpty() ? "" : units.get(0);
    }

    /** The unit of the measure's number: that of a reading, or what the kind makes of it. */
    public String unit() {
        return switch (kind) {
            case RATIO -> "ratio";
            case RISE -> "degrees";
            default -> readingUnit();
        };
    }
}
