package org.gerdy.engine.review;

import java.time.LocalDate;
import java.util.OptionalDouble;

/**
 * One score now against its first value.
 *
 * @param instrument the instrument
 * @param first day of the first complete score; it never moves
 * @param baseline that score
 * @param latest day of the latest complete score
 * @param now that score
 * @param gain change in points; above zero is better
 * @param threshold the thresholds it is held against
 * @param verdict what it comes to
 * @param headroom how far the first score was from the best possible, points; empty where there is no best
 * @param untestable whether that was too little for a gain to show
 * @param remark what to know when reading it, may be empty
 */
public record Change(
        Instrument instrument,
        LocalDate first,
        double baseline,
        LocalDate latest,
        double now,
        double gain,
        Threshold threshold,
        Verdict verdict,
        OptionalDouble headroom,
        boolean untestable,
        String remark) {

    static Change of(
            Instrument instrument,
            LocalDate first,
            double baseline,
            LocalDate latest,
            double now,
            Threshold threshold) {
        double gain = instrument.gain(baseline, now);
        OptionalDouble better = threshold.better();
        OptionalDouble worse = threshold.worse();
        OptionalDouble headroom = instrument.headroom(baseline);
        boolean untestable = better.isPresent() && headroom.isPresent() && below(headroom, better.getAsDouble());
        Verdict verdict = Verdict.NO_SURE_CHANGE;
        if (better.isPresent() && reaches(gain, better.getAsDouble())) {
            verdict = Verdict.BETTER_THAN_ERROR;
        } else if (worse.isPresent() && reaches(-gain, worse.getAsDouble())) {
            verdict = Verdict.WORSE;
        }
        return new Change(
                instrument,
                first,
                baseline,
                latest,
                now,
                gain,
                threshold,
                verdict,
                headroom,
                untestable,
                remark(gain, threshold, verdict, untestable));
    }

    private static String remark(double gain, Threshold threshold, Verdict verdict, boolean untestable) {
        if (threshold.better().isEmpty()) {
            return "No threshold is known for this score in a population near enough; the change cannot be judged.";
        }
        if (untestable) {
            return "The first score was too near the best possible for a sure gain to show; use another score.";
        }
        OptionalDouble error = threshold.errorPoints();
        OptionalDouble matters = threshold.importantPoints();
        if (verdict == Verdict.NO_SURE_CHANGE && gain > 0) {
            if (matters.isPresent() && reaches(gain, matters.getAsDouble())) {
                return "Possible: as large as matters, still within measurement error.";
            }
            if (error.isPresent() && reaches(gain, error.getAsDouble())) {
                return "Beyond measurement error, smaller than what matters.";
            }
        }
        return error.isEmpty() ? "Measurement error is not known in this population." : "";
    }

    /** Totals have at most two decimals, so a millionth of a point is no difference. */
    private static boolean reaches(double value, double threshold) {
        return value >= threshold - 1e-6;
    }

    private static boolean below(OptionalDouble value, double threshold) {
        return value.orElse(threshold) < threshold - 1e-6;
    }
}
