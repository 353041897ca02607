package org.gerdy.engine.casefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.MeasuredValue;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Units;

/**
 * What measures say as findings: the number a measure makes of its trials is the answer to the finding of that measure,
 * in the finding's unit, side by side. What was recorded as a finding is never replaced.
 */
public final class MeasuredFindings {
    private static final double HALF = 0.5;
    /** Far below any reading and far above the error of a double. */
    private static final double ROUNDING = 1e-9;

    private final Catalogue catalogue;
    private final Map<String, MeasureDefinition> measures;

    /** Over these findings and measures, each by its id. */
    public MeasuredFindings(Catalogue catalogue, Map<String, MeasureDefinition> measures) {
        this.catalogue = catalogue;
        this.measures = measures;
    }

    /** The recorded answers with those of the measures put in where none was recorded, side by side. */
    Map<String, Recorded> with(Map<String, Recorded> recorded, Map<String, Measured> taken) {
        Map<String, Recorded> known = new LinkedHashMap<>(recorded);
        taken.values().forEach(measured -> finding(measured).ifPresent(finding -> answer(measured, finding)
                .ifPresent(answer -> known.merge(finding.id(), answer, MeasuredFindings::kept))));
        return known;
    }

    /** One sentence for each side on which the measure and the answer that was recorded differ. */
    public List<String> differences(Measured measured, Recorded recorded) {
        Optional<FindingDefinition> finding = finding(measured);
        Optional<Recorded> answer = finding.flatMap(known -> answer(measured, known));
        List<String> told = new ArrayList<>();
        if (answer.isPresent()) {
            for (Side side : finding.orElseThrow().perSide() ? Side.BOTH.each() : Side.LEFT.each()) {
                Optional<Answer> said = recorded.on(side);
                Optional<Answer> read = answer.get().on(side);
                if (said.isPresent() && read.isPresent() && !agree(said.get(), read.get(), finding.orElseThrow())) {
                    told.add("'" + finding.orElseThrow().id() + "' is "
                            + said.get().text() + " among the findings and "
                            + read.get().text() + " by its measure"
                            + (finding.orElseThrow().perSide() ? ", " + side.word() : "")
                            + "; the finding is used, look at both again.");
                }
            }
        }
        return told;
    }

    /** The finding this measure answers, if it answers one. */
    Optional<FindingDefinition> finding(Measured measured) {
        return Optional.ofNullable(measures.get(measured.measure()))
                .flatMap(MeasureDefinition::finding)
                .flatMap(catalogue::finding);
    }

    private Optional<Recorded> answer(Measured measured, FindingDefinition finding) {
        MeasureDefinition measure = measures.get(measured.measure());
        if (measure == null) {
            return Optional.empty();
        }
        if (!finding.perSide()) {
            return measured.whole()
                    .flatMap(one -> answer(measure, finding, one))
                    .map(Recorded.Whole::new);
        }
        Optional<Answer> left = measured.left().flatMap(one -> answer(measure, finding, one));
        Optional<Answer> right = measured.right().flatMap(one -> answer(measure, finding, one));
        return left.isEmpty() && right.isEmpty() ? Optional.empty() : Optional.of(new Recorded.Sides(left, right));
    }

    /** Empty when the readings make no number, such as an index with an item missing. */
    private static Optional<Answer> answer(MeasureDefinition measure, FindingDefinition finding, Readings readings) {
        MeasuredValue value = MeasuredValue.of(measure, readings);
        if (!value.word().isEmpty()) {
            return Optional.of(new Answer.Choice(value.word()));
        }
        OptionalDouble number = value.value().isPresent()
                ? Units.convert(value.value().getAsDouble(), measure.unit(), finding.unit())
                : OptionalDouble.empty();
        return number.isPresent()
                ? Optional.of(new Answer.Quantity(
                        number.getAsDouble(), (Plain.brief(number.getAsDouble()) + " " + finding.unit()).strip()))
                : Optional.empty();
    }

    /** What was recorded, with the other side filled in where only one was. */
    private static Recorded kept(Recorded said, Recorded read) {
        return said instanceof Recorded.Sides own && read instanceof Recorded.Sides other
                ? new Recorded.Sides(own.left().or(other::left), own.right().or(other::right))
                : said;
    }

    /** Whether both say the same to the decimals that were written. */
    private static boolean agree(Answer said, Answer read, FindingDefinition finding) {
        if (!(said instanceof Answer.Quantity number) || !(read instanceof Answer.Quantity taken)) {
            return said.equals(read);
        }
        Optional<Units.Written> written = Units.read(number.text());
        String unit =
                written.map(Units.Written::unit).filter(one -> !one.isEmpty()).orElse(finding.unit());
        OptionalDouble inUnit = Units.convert(taken.value(), finding.unit(), unit);
        if (written.isEmpty() || inUnit.isEmpty()) {
            return number.value() == taken.value();
        }
        return Math.abs(inUnit.getAsDouble() - written.get().value())
                <= HALF * Math.pow(10, -decimals(number.text())) + ROUNDING;
    }

    /** How many digits stand behind the point of a number such as {@code 11.75 kgf}. */
    private static int decimals(String text) {
        int point = text.indexOf('.');
        int end = point + 1;
        while (point >= 0 && end < text.length() && Character.isDigit(text.charAt(end))) {
            end++;
        }
        return point < 0 ? 0 : end - point - 1;
    }
}
