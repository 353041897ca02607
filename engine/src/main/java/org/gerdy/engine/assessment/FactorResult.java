package org.gerdy.engine.assessment;

import java.util.List;
import java.util.OptionalDouble;
import org.gerdy.engine.measure.FactorVerdict;

/**
 * What is known of one contributing factor at one visit.
 *
 * @param id the factor
 * @param label as shown
 * @param domain grouping
 * @param verdict what measuring says
 * @param value the number the verdict rests on, if there is one
 * @param unit unit of value and error, may be empty
 * @param seen what was recorded, as text; empty when nothing was
 * @param norm what it was held against, with the group; empty when there is none
 * @param error smallest difference that is more than noise, in {@code unit}
 * @param reliability how well the measure repeats, as printed; may be empty
 * @param tie how the literature ties the factor to the complaint, as a word
 * @param association the same in plain words
 * @param gauges the same as numbers on axes, for a picture; empty when nothing was measured as a number
 * @param reasons the steps to the verdict, one sentence each, with sources
 */
public record FactorResult(
        String id,
        String label,
        String domain,
        FactorVerdict verdict,
        OptionalDouble value,
        String unit,
        String seen,
        String norm,
        OptionalDouble error,
        String reliability,
        String tie,
        String association,
        List<Gauge> gauges,
        List<Reason> reasons) {}
