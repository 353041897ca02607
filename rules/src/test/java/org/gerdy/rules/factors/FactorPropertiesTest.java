package org.gerdy.rules.factors;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Gauge;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.measure.FactorDefinition.Method;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Readings;

class FactorPropertiesTest {
    @Provide
    Arbitrary<MeasureDefinition> pairs() {
        return Arbitraries.of(Person.TABLES.measures().values().stream()
                .filter(measure -> measure.perSide()
                        && (measure.kind() == MeasureKind.FORCE || measure.kind() == MeasureKind.TRIALS))
                .toList());
    }

    private static double scaled(MeasureDefinition measure, double share) {
        return measure.min().orElseThrow()
                + share * (measure.max().orElseThrow() - measure.min().orElseThrow());
    }

    private static List<FactorResult> judged(Side side, MeasureDefinition measure, double left, double right) {
        return Person.hurting(side)
                .measured(measure.id(), Map.of(), Readings.of(left), Readings.of(right))
                .verdicts();
    }

    @Property
    void aSideDifferenceInsideTheErrorNeverContributes(
            @ForAll("pairs") MeasureDefinition measure,
            @ForAll @DoubleRange(min = 0, max = 1) double left,
            @ForAll @DoubleRange(min = 0, max = 1) double right,
            @ForAll Side side) {
        double l = scaled(measure, left);
        double r = scaled(measure, right);
        for (FactorResult result : judged(side, measure, l, r)) {
            if (result.verdict() != FactorVerdict.CONTRIBUTES) {
                continue;
            }
            boolean symmetry = Person.TABLES.factors().stream()
                    .anyMatch(factor -> factor.id().equals(result.id()) && factor.method() == Method.SYMMETRY);
            double size = symmetry ? 100 * Math.abs(l - r) / Math.max(l, r) : Math.abs(l - r);
            assertThat(size).isGreaterThan(result.error().orElseThrow());
        }
    }

    @Property
    void thePictureShowsTheNumberTheVerdictRestsOnAndThePainfulSideFirst(
            @ForAll("pairs") MeasureDefinition measure,
            @ForAll @DoubleRange(min = 0, max = 1) double left,
            @ForAll @DoubleRange(min = 0, max = 1) double right,
            @ForAll Side side) {
        for (FactorResult result : judged(side, measure, scaled(measure, left), scaled(measure, right))) {
            if (result.value().isPresent() && !result.unit().equals("kg/m2")) {
                assertThat(result.gauges().stream()
                                .flatMap(gauge -> gauge.marks().stream())
                                .map(Gauge.Mark::value))
                        .as(result.id())
                        .contains(result.value().getAsDouble());
            }
            result.gauges().stream().filter(gauge -> gauge.marks().size() == 2).forEach(gauge -> assertThat(
                            gauge.marks().get(0).side())
                    .isEqualTo(side == Side.RIGHT ? "right" : "left"));
        }
    }

    @Property
    void equalSidesContributeToNothing(
            @ForAll("pairs") MeasureDefinition measure,
            @ForAll @DoubleRange(min = 0, max = 1) double share,
            @ForAll Side side) {
        double value = scaled(measure, share);
        assertThat(judged(side, measure, value, value))
                .noneMatch(result -> result.verdict() == FactorVerdict.CONTRIBUTES);
    }

    @Property
    void mirroredSidesGiveTheSameVerdicts(
            @ForAll("pairs") MeasureDefinition measure,
            @ForAll @DoubleRange(min = 0, max = 1) double one,
            @ForAll @DoubleRange(min = 0, max = 1) double two) {
        double painful = scaled(measure, one);
        double other = scaled(measure, two);
        List<FactorResult> left = judged(Side.LEFT, measure, painful, other);
        List<FactorResult> right = judged(Side.RIGHT, measure, other, painful);
        for (int i = 0; i < left.size(); i++) {
            assertThat(right.get(i).verdict()).isEqualTo(left.get(i).verdict());
            assertThat(right.get(i).value()).isEqualTo(left.get(i).value());
        }
    }

    @Property
    void noVerdictEverExceedsItsCeiling(
            @ForAll("pairs") MeasureDefinition measure,
            @ForAll @DoubleRange(min = 0, max = 1) double one,
            @ForAll @DoubleRange(min = 0, max = 1) double two) {
        List<FactorResult> results = judged(Side.LEFT, measure, scaled(measure, one), scaled(measure, two));
        for (int i = 0; i < results.size(); i++) {
            assertThat(results.get(i).verdict())
                    .isLessThanOrEqualTo(Person.TABLES.factors().get(i).ceiling());
        }
    }
}
