package org.gerdy.engine.measure;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Everything the knowledge base says about measures and contributing factors.
 *
 * @param measures by id, in table order
 * @param factors in table order
 * @param norms by row id, in table order
 * @param errors by row id, in table order
 * @param bands in order of preference within a measure
 * @param settings which findings hold the person's facts, and the limits of a test
 */
public record FactorTables(
        Map<String, MeasureDefinition> measures,
        List<FactorDefinition> factors,
        Map<String, Norm> norms,
        Map<String, ErrorRow> errors,
        List<Band> bands,
        Settings settings) {

    /**
     * Names and limits the verdicts need.
     *
     * @param ageFinding finding with the age in years
     * @param sexFinding finding with the recorded sex
     * @param massFinding finding with the body mass in kg
     * @param heightFinding finding with the height in cm
     * @param firstPainfulFinding finding with the day of the first painful session
     * @param massIndexMeasure measure worked out from mass and height
     * @param gradeSteps how many steps of a list of grades make one full grade
     * @param painStops pain during a test from which a value says nothing of strength, 0 to 10
     */
    public record Settings(
            String ageFinding,
            String sexFinding,
            String massFinding,
            String heightFinding,
            String firstPainfulFinding,
            String massIndexMeasure,
            double painStops,
            int gradeSteps) {}

    /** The measure of this id. */
    public Optional<MeasureDefinition> measure(String id) {
        return Optional.ofNullable(measures.get(id));
    }

    /** The first band of the measure that holds the value. */
    public Optional<Band> band(String measure, double value) {
        return bands.stream()
                .filter(band -> band.measure().equals(measure) && band.holds(value))
                .findFirst();
    }

    /** The band of this name on a measure's scale. */
    public Optional<Band> bandNamed(String measure, String name) {
        return bands.stream()
                .filter(band -> band.measure().equals(measure) && band.name().equals(name))
                .findFirst();
    }

    /** Every error row of a measure. */
    public List<ErrorRow> errorsOf(String measure) {
        return errors.values().stream()
                .filter(row -> row.measure().equals(measure))
                .toList();
    }

    /** Every finding the tables name, for the knowledge base to hold against its catalogue. */
    public Set<String> findingsNamed() {
        Set<String> named = new LinkedHashSet<>(List.of(
                settings.ageFinding(),
                settings.sexFinding(),
                settings.massFinding(),
                settings.heightFinding(),
                settings.firstPainfulFinding()));
        measures.values().forEach(measure -> measure.finding().ifPresent(named::add));
        for (FactorDefinition factor : factors) {
            factor.presentWhen().ifPresent(when -> when.atoms(atom -> named.add(atom.finding())));
            boolean load = factor.method() == FactorDefinition.Method.LOAD;
            for (int i = load ? 1 : 0; i < factor.reads().size(); i++) {
                String read = factor.reads().get(i);
                if (factor.method() != FactorDefinition.Method.PATTERN && !measures.containsKey(read)) {
                    named.add(read);
                }
            }
        }
        return named;
    }
}
