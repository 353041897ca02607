package org.gerdy.engine.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class CalibrationTest {
    @Property
    void reliabilityLessResolutionPlusUncertaintyIsTheScore(
            @ForAll @Size(min = 1, max = 60) List<@IntRange(max = 9) Integer> tenths, @ForAll long outcomes) {
        // Murphy 1973 (recalled): exact when each group holds one confidence.
        List<Calibration.Forecast> forecasts = new ArrayList<>();
        for (int i = 0; i < tenths.size(); i++) {
            forecasts.add(new Calibration.Forecast(tenths.get(i) / 10.0 + 0.05, (outcomes >> (i % 63) & 1) == 1));
        }
        Calibration calibration = Calibration.of(forecasts);
        assertThat(calibration.reliability() - calibration.resolution() + calibration.uncertainty())
                .isCloseTo(calibration.score(), within(1e-9));
    }

    @Test
    void certaintyStandsInTheLastTenth() {
        Calibration calibration = Calibration.of(List.of(new Calibration.Forecast(1, true)));
        assertThat(calibration.groups()).hasSize(1);
        assertThat(calibration.groups().get(0).high()).isEqualTo(1);
        assertThat(calibration.score()).isZero();
    }

    @Test
    void withoutForecastsThereIsNothingToSay() {
        assertThatThrownBy(() -> Calibration.of(List.of())).isInstanceOf(IllegalArgumentException.class);
    }
}
