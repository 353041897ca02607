package org.gerdy.engine.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Units;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MeasuringTest {
    private static OptionalDouble some(double value) {
        return OptionalDouble.of(value);
    }

    @Test
    void errorFollowsFromDeviationAndReliability() {
        // Hand: 12 x sqrt(0.09) = 3.6; 1.96 x sqrt(2) x 3.6 = 9.978691
        assertThat(MeasurementError.sem(12, 0.91)).isCloseTo(3.6, within(1e-12));
        assertThat(MeasurementError.mdc95(3.6)).isCloseTo(9.978691, within(1e-6));
        // Hand: 1.96 x sqrt(2) x 4.3 = 11.918992
        assertThat(MeasurementError.mdc95(4.3)).isCloseTo(11.918992, within(1e-6));
        // Martins 2017 prints SEM 7 to 22 % of the mean; hand: x 2.771859 = 19.403 and 60.981 %
        assertThat(MeasurementError.mdc95(7)).isCloseTo(19.403, within(5e-4));
        assertThat(MeasurementError.mdc95(22)).isCloseTo(60.981, within(5e-4));
    }

    @Test
    void printedDetectableChangesAgreeWithTheFormulaToTheirRounding() {
        // Leijendekkers 2017, belt-fixed: SEM 3.9 to 4.7 Nm, MDC printed 10.9 to 12.9 Nm (formula 10.81 and 13.03)
        assertThat(MeasurementError.mdc95(3.9)).isCloseTo(10.9, within(0.2));
        assertThat(MeasurementError.mdc95(4.7)).isCloseTo(12.9, within(0.2));
        // Martins 2017: SEM 4.8 to 18.9 Nm, MDC printed 13.2 to 52.4 Nm
        assertThat(MeasurementError.mdc95(4.8)).isCloseTo(13.2, within(0.15));
        assertThat(MeasurementError.mdc95(18.9)).isCloseTo(52.4, within(0.05));
    }

    @Test
    void reliabilityOutsideZeroToOneIsRefused() {
        assertThat(MeasurementError.sem(5, 1)).isZero();
        assertThatThrownBy(() -> MeasurementError.sem(5, -0.2)).hasMessageContaining("outside 0 to 1");
        assertThatThrownBy(() -> MeasurementError.sem(5, 1.01)).hasMessageContaining("outside 0 to 1");
        assertThatThrownBy(() -> MeasurementError.sem(5, Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> MeasurementError.mdc95(-1)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void strengthIsScaledFourWaysThatDiffer() {
        // Hand: 180 N at 0.42 m, 62 kg, 1.70 m
        Strength strength = new Strength(180, some(0.42), some(62), some(1.70));
        assertThat(strength.torque().getAsDouble()).isCloseTo(75.6, within(1e-9));
        assertThat(strength.torquePerMass().getAsDouble()).isCloseTo(1.219355, within(1e-6));
        assertThat(strength.percentBodyWeight().getAsDouble()).isCloseTo(29.604664, within(1e-6));
        assertThat(strength.percentBodyWeightHeight().getAsDouble()).isCloseTo(7.314094, within(1e-6));
        assertThat(strength.allometric().getAsDouble()).isCloseTo(11.490653, within(1e-6));
        // Hand: 110 N x 0.38 m / 62 kg
        assertThat(new Strength(110, some(0.38), some(62), OptionalDouble.empty())
                        .in("Nm/kg")
                        .orElseThrow()
                        .getAsDouble())
                .isCloseTo(0.674194, within(1e-6));
    }

    @Test
    void aScaleWithoutItsNumbersIsMissingAndAnUnknownScaleIsNone() {
        Strength bare = new Strength(180, OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty());
        assertThat(bare.in("Nm/kg").orElseThrow()).isEmpty();
        assertThat(bare.in("stone")).isEmpty();
        assertThatThrownBy(() -> new Strength(180, some(0), some(62), some(1.7)))
                .hasMessageContaining("lever arm");
    }

    @Test
    void kilogramsForceAndNewtonsAreNotTheSameNumber() {
        // Standard gravity 9.80665 m/s2 (CGPM 1901): 18.4 kgf = 180.442 N; 40 lbf = 177.929 N
        assertThat(Units.convert(18.4, "kgf", "N").getAsDouble()).isCloseTo(180.442, within(5e-4));
        assertThat(Units.convert(40, "lbf", "N").getAsDouble()).isCloseTo(177.929, within(5e-4));
        assertThat(Units.convert(12, "kgf", "N").getAsDouble()).isCloseTo(117.6798, within(1e-9));
    }

    @Test
    void theDeficitIsWhatTheAffectedSideLacksOfTheOther() {
        // Hand: affected 132, other 165
        assertThat(new SideDifference(132, 165).deficit().getAsDouble()).isEqualTo(20.0);
        assertThat(new SideDifference(165, 132).deficit().getAsDouble()).isEqualTo(-25.0);
        // Fredericson 2000: women 7.82 against own other side 9.82, men 6.86 against 8.62; hand 79.6 % both
        assertThat(100 - new SideDifference(7.82, 9.82).deficit().getAsDouble()).isCloseTo(79.6, within(0.05));
        assertThat(100 - new SideDifference(6.86, 8.62).deficit().getAsDouble()).isCloseTo(79.6, within(0.05));
    }

    @Test
    void aZeroOnTheOtherSideGivesNoDeficitAndNeverInfinity() {
        assertThat(new SideDifference(10, 0).deficit()).isEmpty();
        assertThat(new SideDifference(0, 0).deficit()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        // age, male, expected, value, z: printed equation 1.600 - 0.005 age + 0.215 male, SD 0.354 (Ramskov 2014)
        "40, true, 1.615, 1.20, -1.172316",
        "30, false, 1.450, 1.00, -1.271186"
    })
    void aPrintedEquationGivesMeanAndZ(double age, boolean male, double expected, double value, double z) {
        Norm norm = equation(male ? 1.815 : 1.600);
        assertThat(norm.expected(some(age)).getAsDouble()).isCloseTo(expected, within(1e-9));
        assertThat(norm.z(value, some(age)).getAsDouble()).isCloseTo(z, within(1e-6));
    }

    private static Norm equation(double start) {
        OptionalDouble none = OptionalDouble.empty();
        return new Norm(
                "n",
                "m",
                "",
                none,
                none,
                some(start),
                some(-0.005),
                some(0.354),
                none,
                none,
                "Nm/kg",
                Map.of("technique", "break"),
                "",
                true,
                List.of(),
                Basis.PUBLISHED,
                "");
    }

    @Test
    void aNormMeasuredAnotherWayIsNotCompared() {
        assertThat(equation(1.6).sameSetUp(Map.of("technique", "break", "position", "side-lying")))
                .isTrue();
        assertThat(equation(1.6).sameSetUp(Map.of("technique", "make"))).isFalse();
        assertThat(equation(1.6).sameSetUp(Map.of())).isFalse();
    }

    @Test
    void anIndexAddsItsItemsAndRefusesWhatIsMissingOrOut() {
        assertThat(total(1, 0, 2, 1, 1, 1)).hasValue(6);
        assertThat(total(-1, -1, -1, -1, 0, -1)).hasValue(-5);
        ItemIndex missing = new ItemIndex(List.of(OptionalInt.of(1), OptionalInt.empty(), OptionalInt.of(1)), -2, 2);
        assertThat(missing.total()).isEmpty();
        assertThat(missing.missing()).containsExactly(2);
        assertThatThrownBy(() -> total(1, 3)).hasMessageContaining("Item 2 is 3");
    }

    private static OptionalInt total(int... items) {
        return new ItemIndex(
                        java.util.Arrays.stream(items).mapToObj(OptionalInt::of).toList(), -2, 2)
                .total();
    }

    @Test
    void anAngleFollowsFromRiseAndLength() {
        // Hand: asin(6/42) = 8.213211 degrees, asin(-4/42) = -5.465024 degrees
        assertThat(Geometry.inclination(6, 42)).isCloseTo(8.213211, within(1e-6));
        assertThat(Geometry.inclination(-4, 42)).isCloseTo(-5.465024, within(1e-6));
        assertThatThrownBy(() -> Geometry.inclination(43, 42)).hasMessageContaining("no triangle");
    }

    @Test
    void ratiosOfHeightsFollowTheArchLaboratory() {
        // Formula archlab; hand: 66.5/184 = 0.361413, 63.0/184 = 0.342391, their ratio 0.947368
        double sitting = Geometry.ratio(66.5, 184);
        double standing = Geometry.ratio(63.0, 184);
        assertThat(sitting).isCloseTo(0.361413, within(1e-6));
        assertThat(standing).isCloseTo(0.342391, within(1e-6));
        assertThat(standing / sitting).isCloseTo(0.947368, within(1e-6));
    }

    @Test
    void bodyMassIndexIsMassOverSquaredHeight() {
        // Hand: 62 / 1.70^2 = 21.453287
        assertThat(Geometry.bodyMassIndex(62, 1.70)).isCloseTo(21.453287, within(1e-6));
    }

    @Test
    void aLastTrialWellAboveTheRestAsksForOneMore() {
        assertThat(Trials.of(100, 102, 108).stillRising(5)).isTrue();
        assertThat(Trials.of(100, 108, 102).stillRising(5)).isFalse();
        assertThat(Trials.of(100, 105).stillRising(5)).isFalse();
        assertThatThrownBy(() -> new Trials(List.of())).hasMessageContaining("at least one");
        assertThatThrownBy(() -> Trials.of(Double.NaN)).hasMessageContaining("not a number");
    }

    @Test
    void printedRangesKeepBothEndsAndTheCautiousOneIsTheLarger() {
        assertThat(Span.of("10.9..12.9").cautious()).hasValue(12.9);
        assertThat(Span.of("10.9..12.9").words()).isEqualTo("10.9 to 12.9");
        assertThat(Span.of("0.70..").words()).isEqualTo("0.70 or more");
        assertThat(Span.of("..27").words()).isEqualTo("up to 27");
        assertThat(Span.of("0.70..").cautious()).hasValue(0.70);
        assertThat(Span.of("5.8").low()).hasValue(5.8);
        assertThatThrownBy(() -> Span.of("..")).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Span.of("12..3")).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Span.of("about 5")).isInstanceOf(IllegalArgumentException.class);
    }

    @ParameterizedTest
    @CsvSource({
        "12, 12, 12, TRUE_DIFFERENCE",
        "0, , 12, APPARENT_ONLY",
        "0, 14, , APPARENT_ONLY",
        "12, , , UNCONFIRMED",
        "12, , -12, METHODS_DISAGREE",
        "3, 4, 5, EQUAL",
        ", , , NOT_MEASURED",
        "10, , 10, EQUAL"
    })
    void lengthsByThreeMethodsFormAPattern(Double own, Double trunk, Double blocks, PairedLength.Pattern pattern) {
        assertThat(new PairedLength(maybe(own), maybe(trunk), maybe(blocks)).pattern(10))
                .isEqualTo(pattern);
    }

    private static OptionalDouble maybe(Double value) {
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    @Property
    void meanAndDeviationAgreeWithTheReferenceLibrary(
            @ForAll @Size(min = 2, max = 12) List<@DoubleRange(min = -500, max = 500) Double> values) {
        DescriptiveStatistics reference = new DescriptiveStatistics();
        values.forEach(reference::addValue);
        Trials trials = new Trials(values);
        assertThat(trials.mean()).isCloseTo(reference.getMean(), within(1e-9));
        assertThat(trials.standardDeviation().getAsDouble()).isCloseTo(reference.getStandardDeviation(), within(1e-9));
        assertThat(trials.best()).isEqualTo(reference.getMax());
    }

    @Property
    void theNormalCurveAgreesWithTheReferenceLibrary(@ForAll @DoubleRange(min = -8, max = 8) double z) {
        double reference = new NormalDistribution().cumulativeProbability(z);
        assertThat(NormalCurve.below(z)).isCloseTo(reference, within(1e-12));
    }

    @Test
    void aRecalledCriterionNearTheMeanWouldCallTwoPeopleInFiveTight() {
        // Ferber 2010: mean 24.59 (SD 7.27), criterion 23.16 recalled; hand: 42 % lie beyond it
        assertThat(NormalCurve.below((23.16 - 24.59) / 7.27)).isCloseTo(0.42, within(0.005));
    }

    @Property
    void averagingDaysNeverRaisesTheError(
            @ForAll @DoubleRange(min = 0, max = 100) double error,
            @ForAll @net.jqwik.api.constraints.IntRange(min = 1, max = 30) int days) {
        assertThat(MeasurementError.overDays(error, days)).isLessThanOrEqualTo(error);
    }
}
