package org.gerdy.engine.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class MeasureTextTest {
    static MeasureDefinition measure(MeasureKind kind, List<String> units, double min, double max) {
        return new MeasureDefinition(
                "a-measure",
                "A measure",
                kind,
                true,
                Optional.empty(),
                units,
                3,
                Trials.Aggregate.BEST,
                List.of("good", "poor"),
                OptionalDouble.of(min),
                OptionalDouble.of(max),
                OptionalDouble.of(5),
                Map.of("technique", List.of("make", "break"), "device", List.of()),
                List.of(),
                List.of(),
                "",
                "");
    }

    private static final MeasureText FORCE =
            new MeasureText(measure(MeasureKind.FORCE, List.of("N", "kgf", "lbf"), 1, 1500));
    private static final MeasureText LENGTH = new MeasureText(measure(MeasureKind.TRIALS, List.of("mm"), 100, 1300));

    @Test
    void twelveKilogramsForceAndTwelveNewtonsAreReadAsWritten() {
        assertThat(FORCE.series(List.of("12 kgf")).get(0).getAsDouble()).isEqualTo(12 * 9.80665);
        assertThat(FORCE.series(List.of("12 N")).get(0).getAsDouble()).isEqualTo(12);
    }

    @Test
    void aForceWithoutUnitIsRefused() {
        assertThatThrownBy(() -> FORCE.series(List.of("12")))
                .hasMessageContaining("has no unit; write N or kgf or lbf");
    }

    @Test
    void oneSetInTwoUnitsIsRefused() {
        assertThatThrownBy(() -> FORCE.series(List.of("12 kgf", "118 N"))).hasMessageContaining("in one unit");
    }

    @Test
    void centimetresInAMillimetreFieldAreAnErrorAndNotConverted() {
        assertThatThrownBy(() -> LENGTH.series(List.of("88 cm"))).hasMessageContaining("it takes mm");
        assertThatThrownBy(() -> LENGTH.series(List.of("88"))).hasMessageContaining("has no unit");
        assertThat(LENGTH.series(List.of("880 mm"))).containsExactly(OptionalDouble.of(880));
    }

    @Test
    void aMassIsNoForce() {
        assertThatThrownBy(() -> FORCE.series(List.of("12 kg"))).hasMessageContaining("not taken in 'kg'");
    }

    @Test
    void impossibleNumbersAreRefusedWithTheirRange() {
        assertThatThrownBy(() -> LENGTH.series(List.of("8800 mm"))).hasMessageContaining("outside 100 to 1300 mm");
        assertThatThrownBy(() -> LENGTH.series(List.of("long"))).hasMessageContaining("is not a number in mm");
        assertThatThrownBy(() -> LENGTH.series(List.of())).hasMessageContaining("There is no reading");
    }

    @Test
    void aDashIsAnItemNotScoredOnlyInAnIndex() {
        MeasureText index = new MeasureText(measure(MeasureKind.INDEX, List.of("points"), -2, 2));
        assertThat(index.series(List.of("1", "-", "-2")))
                .containsExactly(OptionalDouble.of(1), OptionalDouble.empty(), OptionalDouble.of(-2));
        assertThatThrownBy(() -> LENGTH.series(List.of("-"))).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void leverPainSetUpAndWordsAreChecked() {
        assertThat(FORCE.lever("42 cm")).isEqualTo(0.42);
        assertThatThrownBy(() -> FORCE.lever("420")).hasMessageContaining("cm or m");
        assertThatThrownBy(() -> FORCE.lever("42 m")).hasMessageContaining("cannot be");
        assertThat(FORCE.pain("4")).isEqualTo(4);
        assertThatThrownBy(() -> FORCE.pain("11")).hasMessageContaining("0 to 10");
        assertThat(FORCE.setUp("technique", "make")).isEqualTo("make");
        assertThatThrownBy(() -> FORCE.setUp("technique", "brake")).hasMessageContaining("Did you mean 'break'?");
        assertThatThrownBy(() -> FORCE.setUp("tecnique", "make")).hasMessageContaining("Did you mean 'technique'?");
        assertThat(FORCE.setUp("device", "any text")).isEqualTo("any text");
        assertThat(FORCE.word("good")).isEqualTo("good");
        assertThatThrownBy(() -> FORCE.word("goood")).hasMessageContaining("Did you mean 'good'?");
    }

    @Test
    void fewerTrialsThanTheProtocolAsksForIsSaid() {
        MeasuredValue value =
                MeasuredValue.of(measure(MeasureKind.FORCE, List.of("N"), 1, 1500), Readings.of(100, 110));
        assertThat(value.value()).hasValue(110);
        assertThat(value.notes())
                .containsExactly(
                        "2 trials recorded; the protocol asks for 3.",
                        "The last trial is the highest by more than 5 %; take one more.");
    }

    @Test
    void anIndexWithAnItemMissingHasNoTotal() {
        MeasureDefinition index = measure(MeasureKind.INDEX, List.of("points"), -2, 2);
        Readings readings = new Readings(
                Map.of("items", List.of(OptionalDouble.of(1), OptionalDouble.empty(), OptionalDouble.of(1))),
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty());
        MeasuredValue value = MeasuredValue.of(index, readings);
        assertThat(value.value()).isEmpty();
        assertThat(value.notes()).containsExactly("No total: item 2 is missing.");
    }
}
