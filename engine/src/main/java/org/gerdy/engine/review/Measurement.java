package org.gerdy.engine.review;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.knowledge.NumberRange;
import org.gerdy.engine.vocabulary.Basis;

/**
 * What one study says about an instrument in one population. A number that is empty is unknown.
 *
 * @param id the row
 * @param instrument the instrument
 * @param sem standard error of measurement, in points
 * @param detectable smallest change beyond error, in points
 * @param detectableLevel confidence level of {@code detectable}, percent
 * @param important smallest change that matters, in points
 * @param population whom it was measured in
 * @param sources bibliography keys
 * @param basis where it comes from
 * @param note for the reader
 */
public record Measurement(
        String id,
        String instrument,
        OptionalDouble sem,
        Optional<NumberRange> detectable,
        OptionalDouble detectableLevel,
        Optional<NumberRange> important,
        String population,
        List<String> sources,
        Basis basis,
        String note) {}
