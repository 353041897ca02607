package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.MeasuredFindings;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.Geometry;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.Readings;

/** What is known for the verdicts at one visit: measures of this and earlier visits, findings, the load report. */
final class FactorFacts {
    private static final double CENTIMETRES = 100;

    final FactorTables tables;
    final Observations observations;
    final Optional<LoadReport> load;
    private final List<Map<String, Measured>> visits;

    FactorFacts(
            FactorTables tables,
            Observations observations,
            List<Map<String, Measured>> visits,
            Optional<LoadReport> load) {
        this.tables = tables;
        this.observations = observations;
        this.visits = List.copyOf(visits);
        this.load = load;
    }

    /** The measure as taken at this visit, else its single value among the findings, else worked out. */
    Optional<Measured> measured(String id) {
        Optional<MeasureDefinition> definition = tables.measure(id);
        if (definition.isEmpty()) {
            return Optional.empty();
        }
        Measured taken = visits.isEmpty() ? null : visits.get(visits.size() - 1).get(id);
        if (taken != null && !contradicted(definition.get(), taken)) {
            return Optional.of(taken);
        }
        if (id.equals(tables.settings().massIndexMeasure())) {
            return massIndex(id);
        }
        return definition.get().finding().flatMap(finding -> fromFinding(definition.get(), finding));
    }

    /** Whether a finding that was recorded beside the measure says something else; then the finding is used. */
    private boolean contradicted(MeasureDefinition measure, Measured taken) {
        MeasuredFindings measured = new MeasuredFindings(observations.catalogue(), tables.measures());
        return measure.finding()
                .flatMap(observations::recorded)
                .filter(recorded -> !measured.differences(taken, recorded).isEmpty())
                .isPresent();
    }

    /** The same measure on earlier visits, oldest first. */
    List<Measured> earlier(String id) {
        List<Measured> earlier = new ArrayList<>();
        for (int i = 0; i < visits.size() - 1; i++) {
            Measured measured = visits.get(i).get(id);
            if (measured != null) {
                earlier.add(measured);
            }
        }
        return earlier;
    }

    private Optional<Measured> massIndex(String id) {
        OptionalDouble mass = mass();
        OptionalDouble height = height();
        return mass.isPresent() && height.isPresent()
                ? Optional.of(Measured.whole(
                        id, Map.of(), Readings.of(Geometry.bodyMassIndex(mass.getAsDouble(), height.getAsDouble()))))
                : Optional.empty();
    }

    private Optional<Measured> fromFinding(MeasureDefinition measure, String finding) {
        Recorded recorded = observations.recorded(finding).orElse(null);
        if (recorded instanceof Recorded.Sides sides) {
            Optional<Readings> left = sides.left().flatMap(answer -> readings(measure, answer));
            Optional<Readings> right = sides.right().flatMap(answer -> readings(measure, answer));
            return left.isEmpty() && right.isEmpty()
                    ? Optional.empty()
                    : Optional.of(new Measured(measure.id(), Map.of(), left, right, Optional.empty()));
        }
        if (recorded instanceof Recorded.Whole whole) {
            return readings(measure, whole.answer()).map(readings -> Measured.whole(measure.id(), Map.of(), readings));
        }
        return Optional.empty();
    }

    private static Optional<Readings> readings(MeasureDefinition measure, Answer answer) {
        if (answer instanceof Answer.Choice choice) {
            return Optional.of(Readings.of(choice.choice()));
        }
        if (answer instanceof Answer.Quantity quantity) {
            // A total stands among the findings, not the items it was added from.
            return measure.kind() == MeasureKind.INDEX
                    ? Optional.of(new Readings(
                            Map.of("total", List.of(OptionalDouble.of(quantity.value()))),
                            "",
                            OptionalDouble.empty(),
                            OptionalDouble.empty()))
                    : Optional.of(Readings.of(quantity.value()));
        }
        return Optional.empty();
    }

    /** The number of a finding about the person, in the finding's unit. */
    OptionalDouble quantity(String finding) {
        Recorded recorded = observations.recorded(finding).orElse(null);
        return recorded instanceof Recorded.Whole whole && whole.answer() instanceof Answer.Quantity quantity
                ? OptionalDouble.of(quantity.value())
                : OptionalDouble.empty();
    }

    OptionalDouble age() {
        return quantity(tables.settings().ageFinding());
    }

    String sex() {
        return observations.choices(tables.settings().sexFinding()).stream()
                .findFirst()
                .orElse("");
    }

    /** Body mass in kg. */
    OptionalDouble mass() {
        return positive(quantity(tables.settings().massFinding()), 1);
    }

    /** Height in metres. */
    OptionalDouble height() {
        return positive(quantity(tables.settings().heightFinding()), CENTIMETRES);
    }

    private static OptionalDouble positive(OptionalDouble value, double divisor) {
        return value.isPresent() && value.getAsDouble() > 0
                ? OptionalDouble.of(value.getAsDouble() / divisor)
                : OptionalDouble.empty();
    }

    Side side() {
        return observations.side();
    }

    /** The norms of a factor that fit measure and person, whatever the set-up. */
    List<Norm> norms(FactorDefinition factor, String measure) {
        List<Norm> fitting = new ArrayList<>();
        for (String id : factor.norms()) {
            Norm norm = tables.norms().get(id);
            if (norm != null && norm.compared() && norm.measure().equals(measure) && norm.covers(sex(), age())) {
                fitting.add(norm);
            }
        }
        return fitting;
    }
}
