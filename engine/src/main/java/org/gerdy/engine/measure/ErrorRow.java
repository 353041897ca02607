package org.gerdy.engine.measure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.vocabulary.Basis;

/**
 * How well a measure repeats, as printed.
 *
 * @param id row id
 * @param measure the measure
 * @param method how it was done
 * @param about what the error is of: {@code value}, {@code side-difference}, {@code symmetry}, {@code category}
 * @param sem standard error of measurement
 * @param mdc smallest detectable change
 * @param icc intraclass correlation
 * @param kappa agreement beyond chance on categories
 * @param unit unit of {@code sem} and {@code mdc}
 * @param population who was measured
 * @param sources bibliography keys
 * @param basis where the numbers come from
 * @param note what to know
 */
public record ErrorRow(
        String id,
        String measure,
        String method,
        String about,
        Optional<Span> sem,
        Optional<Span> mdc,
        Optional<Span> icc,
        Optional<Span> kappa,
        String unit,
        String population,
        List<String> sources,
        Basis basis,
        String note) {

    /** The smallest difference that is more than noise: as printed, else from the standard error. The larger end of a range. */
    public OptionalDouble detectable() {
        if (mdc.isPresent()) {
            return mdc.get().cautious();
        }
        OptionalDouble standard = sem.map(Span::cautious).orElse(OptionalDouble.empty());
        return standard.isPresent()
                ? OptionalDouble.of(MeasurementError.mdc95(standard.getAsDouble()))
                : OptionalDouble.empty();
    }

    /** The reliability in words a reader can weigh, such as {@code kappa 0.04}. */
    public String reliability() {
        StringBuilder text = new StringBuilder();
        icc.ifPresent(span -> text.append("ICC ").append(span.words()));
        kappa.ifPresent(
                span -> text.append(text.isEmpty() ? "" : ", ").append("kappa ").append(span.words()));
        sem.ifPresent(span -> text.append(text.isEmpty() ? "" : ", ")
                .append("SEM ")
                .append(span.words())
                .append(" ")
                .append(unit));
        mdc.ifPresent(span -> text.append(text.isEmpty() ? "" : ", ")
                .append("smallest detectable ")
                .append(span.words())
                .append(" ")
                .append(unit));
        return text.toString();
    }
}
