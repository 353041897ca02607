package org.gerdy.engine.vocabulary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class UnitsTest {
    @Test
    void twelveKilogramForceIsNotTwelveNewton() {
        // Standard gravity 9.80665 m/s2: 3rd General Conference on Weights and Measures, 1901, declaration (recalled).
        assertThat(Units.convert(12, "kgf", "N")).hasValue(12 * 9.80665);
        assertThat(Units.convert(12, "N", "N")).hasValue(12);
    }

    @ParameterizedTest(name = "1 {0} is {1} {2}")
    @CsvSource({
        // International yard and pound agreement, 1959: defined exactly (recalled).
        "lb, 0.45359237, kg",
        "st, 6.35029318, kg",
        "in, 2.54, cm",
        "ft, 30.48, cm",
        "mi, 1.609344, km",
        "mi/week, 1.609344, km/week",
        // Pound-force: the pound times standard gravity (both above).
        "lbf, 4.4482216152605, N",
        // Julian year of 365.25 days: International Astronomical Union style manual, 1989, table 5 (recalled).
        "years, 52.178571428571, weeks",
        "months, 4.348214285714, weeks",
        "weeks, 7, days",
        "days, 24, hours",
        "hours, 60, min",
        "km, 1000000, mm"
    })
    void unitsOfOneDimensionConvertByTheirDefinitions(String from, double value, String to) {
        assertThat(Units.convert(1, from, to).orElseThrow()).isCloseTo(value, within(value * 1e-9));
    }

    @ParameterizedTest(name = "{0} C is {1} F")
    @CsvSource({
        // By definition of the Fahrenheit scale: 32 at freezing, 212 at boiling, -40 common to both (recalled).
        "0, 32",
        "100, 212",
        "-40, -40",
        "38, 100.4"
    })
    void temperaturesConvertWithTheirOffset(double celsius, double fahrenheit) {
        assertThat(Units.convert(celsius, "C", "F").orElseThrow()).isCloseTo(fahrenheit, within(1e-9));
        assertThat(Units.convert(fahrenheit, "F", "C").orElseThrow()).isCloseTo(celsius, within(1e-9));
    }

    @ParameterizedTest(name = "{0} does not turn into {1}")
    @CsvSource({"kg, N", "kgf, kg", "Nm, N", "cm, kg", "weeks, cm", "stones, kg", "C, degrees", "km, km/week"})
    void whatMeasuresSomethingElseIsNeverConverted(String from, String to) {
        assertThat(Units.convert(1, from, to)).isEmpty();
    }

    @Property
    void thereAndBackIsTheSameNumber(@ForAll @DoubleRange(min = -1e6, max = 1e6) double value) {
        for (String[] pair : new String[][] {{"kg", "lb"}, {"N", "kgf"}, {"C", "F"}, {"weeks", "months"}}) {
            double there = Units.convert(value, pair[0], pair[1]).orElseThrow();
            assertThat(Units.convert(there, pair[1], pair[0]).orElseThrow())
                    .isCloseTo(value, within(1e-9 * Math.max(1, Math.abs(value))));
        }
    }

    @ParameterizedTest(name = "''{0}'' is {1} {2}")
    @CsvSource({
        "12 kgf, 12, kgf",
        "12.5kgf, 12.5, kgf",
        "-3 °, -3, degrees",
        "37.2 °C, 37.2, C",
        "6 wk, 6, weeks",
        "+4, 4, ''",
        "90 %, 90, percent"
    })
    void aNumberAndItsUnitAreReadApart(String text, double value, String unit) {
        assertThat(Units.read(text)).contains(new Units.Written(value, unit));
    }

    @ParameterizedTest(name = "''{0}'' is no quantity")
    @ValueSource(strings = {"", "kg", "about 5", ".", "-", "1/2", "five"})
    void whatDoesNotStartWithANumberIsNoQuantity(String text) {
        assertThat(Units.read(text).filter(written -> written.unit().isEmpty())).isEmpty();
    }

    @Test
    void theAlternativesOfAUnitStartWithItself() {
        assertThat(Units.alternatives("N")).containsExactly("N", "kgf", "lbf");
        assertThat(Units.alternatives("points")).containsExactly("points");
    }
}
