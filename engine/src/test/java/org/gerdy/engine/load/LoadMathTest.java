package org.gerdy.engine.load;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.gerdy.engine.casefile.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Expected numbers are hand computations from the formulas of the named papers unless a source stands beside them. */
class LoadMathTest {
    private static final double[] WEEK = {300, 0, 450, 0, 240, 600, 0};

    @Test
    void sessionLoadIsEffortTimesMinutes() {
        // Foster 2001: rating of 5 for 45 min
        assertThat(Session.written(
                                LoadFixtures.MONDAY,
                                OptionalLong.empty(),
                                OptionalLong.of(45 * 60),
                                OptionalDouble.of(5))
                        .effortLoad())
                .hasValue(225);
    }

    @Test
    void monotonyIsMeanOverSampleDeviationRestDaysIncluded() {
        // Foster 1998: week of 1590, mean 227.142857, sample SD 241.157921
        assertThat(LoadMath.sum(WEEK)).isEqualTo(1590);
        assertThat(LoadMath.monotony(WEEK).getAsDouble()).isCloseTo(0.941884, within(1e-6));
        assertThat(LoadMath.strain(WEEK).getAsDouble()).isCloseTo(1497.596021, within(1e-6));
        // A single session in a week: monotony is 1/sqrt(7), strain equals the sample SD
        double[] one = {0, 0, 1590, 0, 0, 0, 0};
        assertThat(LoadMath.monotony(one).getAsDouble()).isCloseTo(1 / Math.sqrt(7), within(1e-12));
        assertThat(LoadMath.strain(one).getAsDouble()).isCloseTo(600.963512, within(1e-6));
    }

    @Test
    void droppingRestDaysWouldInflateMonotony() {
        assertThat(LoadMath.monotony(new double[] {300, 450, 240, 600}).getAsDouble())
                .isCloseTo(2.464006, within(1e-6))
                .isGreaterThan(2 * LoadMath.monotony(WEEK).getAsDouble());
    }

    @Test
    void equalDaysHaveNoMonotony() {
        assertThat(LoadMath.monotony(new double[7])).isEmpty();
        assertThat(LoadMath.strain(new double[] {5.1, 5.1, 5.1, 5.1, 5.1, 5.1, 5.1}))
                .isEmpty();
    }

    @Test
    void weekChangeHasNoValueAfterAWeekOfNothing() {
        assertThat(LoadMath.changePercent(24, 36)).hasValue(50);
        assertThat(LoadMath.changePercent(36, 24).getAsDouble()).isCloseTo(-33.333, within(5e-4));
        assertThat(LoadMath.changePercent(0, 36)).isEmpty();
    }

    @Test
    void coupledAndUncoupledRatiosAreTwoNumbers() {
        // Windt 2019: C1..C3 = 20 22 24, A = 36 km
        double[] days = weeks(20, 22, 24, 36);
        assertThat(LoadMath.coupledRatio(days, 7).getAsDouble()).isCloseTo(1.411765, within(1e-6));
        assertThat(LoadMath.uncoupledRatio(days, 7).getAsDouble()).isCloseTo(1.636364, within(1e-6));
        double[] daily = new double[28];
        double[] pattern = {0, 5, 0, 6, 0, 4, 7};
        for (int i = 0; i < 21; i++) {
            daily[i] = pattern[i % 7];
        }
        System.arraycopy(new double[] {0, 6, 0, 8, 0, 6, 12}, 0, daily, 21, 7);
        assertThat(LoadMath.coupledRatio(daily, 7).getAsDouble()).isCloseTo(1.306122, within(1e-6));
        assertThat(LoadMath.uncoupledRatio(daily, 7).getAsDouble()).isCloseTo(1.454545, within(1e-6));
    }

    @Test
    void aReturnFromNothingReachesTheCoupledCeilingAndHasNoUncoupledRatio() {
        assertThat(LoadMath.coupledRatio(weeks(0, 0, 0, 10), 7).getAsDouble()).isCloseTo(4, within(1e-12));
        assertThat(LoadMath.uncoupledRatio(weeks(0, 0, 0, 10), 7)).isEmpty();
        assertThat(LoadMath.coupledRatio(weeks(0, 0, 0, 0), 7)).isEmpty();
    }

    private static double[] weeks(double... weeks) {
        double[] days = new double[7 * weeks.length];
        for (int i = 0; i < days.length; i++) {
            days[i] = weeks[i / 7] / 7;
        }
        return days;
    }

    @ParameterizedTest
    @CsvSource({
        "1, 300.0000, 300.0000", "2, 225.0000, 279.3103", "3, 281.2500, 291.0820", "4, 210.9375, 271.0074",
        "5, 218.2031, 268.8690", "6, 313.6523, 291.7056", "7, 235.2393, 271.5880", "8, 251.4294, 273.5474",
        "9, 188.5721, 254.6821", "10, 266.4291, 271.6006"
    })
    void theWeightedMeanFollowsTheWorkedSequence(int day, double recent, double usual) {
        // Williams 2017: weight 2/(N+1), started from the first day
        double[] loads = Arrays.copyOf(new double[] {300, 0, 450, 0, 240, 600, 0, 300, 0, 500}, day);
        assertThat(LoadMath.weightedMean(loads, 7)).isCloseTo(recent, within(5e-5));
        assertThat(LoadMath.weightedMean(loads, 28)).isCloseTo(usual, within(5e-5));
    }

    @ParameterizedTest
    @CsvSource({"'700,0,0,700,0,0,1600', 545.020, 362.669", "'1600,0,0,700,0,0,700', 360.065, 341.027"})
    void equalTotalsInAnotherOrderWeighDifferently(String week, double recent, double usual) {
        double[] days = new double[28];
        Arrays.fill(days, 0, 21, 300);
        double[] last =
                Arrays.stream(week.split(",")).mapToDouble(Double::parseDouble).toArray();
        System.arraycopy(last, 0, days, 21, 7);
        assertThat(LoadMath.weightedMean(days, 7)).isCloseTo(recent, within(5e-4));
        assertThat(LoadMath.weightedMean(days, 28)).isCloseTo(usual, within(5e-4));
        assertThat(LoadMath.coupledRatio(days, 7).getAsDouble()).isCloseTo(1.2903, within(5e-5));
    }

    @Test
    void theFirstDayStillWeighsAfterFourWeeks() {
        assertThat(LoadMath.shareOfFirstDay(29, 28)).isCloseTo(0.135, within(5e-4));
        assertThat(LoadMath.shareOfFirstDay(57, 28)).isCloseTo(0.018, within(5e-4));
    }

    @Property
    void monotonyAgreesWithTheReferenceLibrary(@ForAll @Size(7) List<@DoubleRange(min = 0, max = 2000) Double> days) {
        double[] week = days.stream().mapToDouble(Double::doubleValue).toArray();
        DescriptiveStatistics reference = new DescriptiveStatistics(week);
        LoadMath.monotony(week).ifPresent(value -> assertThat(value * reference.getStandardDeviation())
                .isCloseTo(reference.getMean(), within(1e-6 * (1 + reference.getMean()))));
    }

    @Property
    void theCoupledRatioIsAFunctionOfTheUncoupled(
            @ForAll @Size(28) List<@IntRange(min = 0, max = 40_000) Integer> metres) {
        double[] days = metres.stream().mapToDouble(Integer::doubleValue).toArray();
        OptionalDouble uncoupled = LoadMath.uncoupledRatio(days, 7);
        // Windt 2019: coupled = 4 U / (3 + U)
        uncoupled.ifPresent(
                u -> assertThat(LoadMath.coupledRatio(days, 7).getAsDouble()).isCloseTo(4 * u / (3 + u), within(1e-9)));
    }

    @ParameterizedTest
    @CsvSource({
        "9000, -25, REFERENCE", "12000, 0, REFERENCE", "13200, 10, REFERENCE", "13300, 10.833, SMALL",
        "15600, 30, SMALL", "15700, 30.833, MODERATE", "24000, 100, MODERATE", "24100, 100.833, LARGE"
    })
    void aSpikeOnAnEdgeTakesTheLowerState(long metres, double percent, Spike.State state) {
        // Bands of Frandsen 2025 against a longest run of 12 km
        OptionalLong reference = OptionalLong.of(12_000);
        Spike.State found = Spike.state(metres, reference, 30, LoadFixtures.SETTINGS);
        assertThat(found).isEqualTo(state);
        assertThat(new Spike(LoadFixtures.MONDAY, metres, reference, 30, found)
                        .percent()
                        .getAsDouble())
                .isCloseTo(percent, within(5e-4));
    }

    @ParameterizedTest
    @CsvSource({"7000, 7700, 10", "12000, 13200, 10", "12000, 15600, 30"})
    void edgesHoldWhereBinaryFractionsFail(long reference, long metres, double percent) {
        Spike spike = new Spike(LoadFixtures.MONDAY, metres, OptionalLong.of(reference), 30, Spike.State.REFERENCE);
        assertThat(spike.percent()).hasValue(percent);
    }

    @Property
    void onEveryReferenceTheEdgeItselfIsNotCrossedAndOneMetreMoreIs(
            @ForAll @IntRange(min = 10, max = 2000) int hundreds) {
        long reference = hundreds * 100L;
        OptionalLong longest = OptionalLong.of(reference);
        assertThat(Spike.state(reference * 110 / 100, longest, 30, LoadFixtures.SETTINGS))
                .isEqualTo(Spike.State.REFERENCE);
        assertThat(Spike.state(reference * 110 / 100 + 1, longest, 30, LoadFixtures.SETTINGS))
                .isEqualTo(Spike.State.SMALL);
        assertThat(Spike.state(reference * 2 + 1, longest, 30, LoadFixtures.SETTINGS))
                .isEqualTo(Spike.State.LARGE);
    }

    @ParameterizedTest
    @CsvSource({
        // Rosetta Code, haversine task: 2886.444442837983 km on a radius of 6371 km; hand for 6372.8 km
        "36.12, -86.67, 33.94, -118.40, 6371.0, 2886.444442837983, 1e-9",
        "36.12, -86.67, 33.94, -118.40, 6372.8, 2887.259951, 1e-5",
        // Library documentation: Lyon to Paris 392.2172 km on the mean radius
        "45.7597, 4.8422, 48.8567, 2.3508, 6371.0088, 392.2172, 1e-3",
        // Hand: one degree of latitude is pi R / 180, of longitude at 60 degrees nearly half of it
        "0, 0, 1, 0, 6371.0088, 111.195080, 1e-6",
        "60, 0, 60, 1, 6371.0088, 55.597011, 1e-3",
        "0, 179.9995, 0, -179.9995, 6371.0088, 0.111195080, 1e-8",
        "0, 0, 0, 180, 6371.0088, 20015.114442, 1e-5",
        "47, 8, 47, 8, 6371.0088, 0, 0"
    })
    void greatCircleDistancesAgreeWithPublishedOnes(
            double lat1, double lon1, double lat2, double lon2, double radius, double expected, double tolerance) {
        assertThat(GreatCircle.metres(lat1, lon1, lat2, lon2, radius)).isCloseTo(expected, within(tolerance));
    }
}
