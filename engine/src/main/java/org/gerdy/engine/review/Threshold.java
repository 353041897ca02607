package org.gerdy.engine.review;

import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.knowledge.NumberRange;

/**
 * The thresholds used for one instrument, and from which rows.
 *
 * @param error the row whose smallest detectable change is used
 * @param important the row whose smallest important change is used
 * @param borrowed why the rows' populations are not the patient's, or empty
 */
public record Threshold(Optional<Measurement> error, Optional<Measurement> important, String borrowed) {

    /** Smallest change beyond error, the upper end where a range is published; points. */
    public OptionalDouble errorPoints() {
        return end(error.flatMap(Measurement::detectable), true);
    }

    /** Smallest change that matters, the upper end where a range is published; points. */
    public OptionalDouble importantPoints() {
        return end(important.flatMap(Measurement::important), true);
    }

    /** What a gain must reach: the larger of error and importance; empty when neither is known. */
    public OptionalDouble better() {
        OptionalDouble error = errorPoints();
        OptionalDouble matters = importantPoints();
        if (error.isEmpty()) {
            return matters;
        }
        return matters.isEmpty() ? error : OptionalDouble.of(Math.max(error.getAsDouble(), matters.getAsDouble()));
    }

    /** What a loss must reach: error where known, at its lower end, else importance. Never larger than {@link #better()}. */
    public OptionalDouble worse() {
        OptionalDouble error = end(this.error.flatMap(Measurement::detectable), false);
        return error.isPresent() ? error : end(important.flatMap(Measurement::important), false);
    }

    private static OptionalDouble end(Optional<NumberRange> range, boolean high) {
        return range.map(found -> OptionalDouble.of(high ? found.high() : found.low()))
                .orElse(OptionalDouble.empty());
    }
}
