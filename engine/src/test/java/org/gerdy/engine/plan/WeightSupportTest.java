package org.gerdy.engine.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class WeightSupportTest {
    @Property
    void takenOffAndCarriedAlwaysAddToTheWholeWeight(@ForAll @IntRange(max = 100) int percent) {
        WeightSupport off = WeightSupport.takingOff(percent);
        assertThat(off.percentTakenOff() + off.percentOfWeight()).isEqualTo(100);
        assertThat(off).isEqualTo(WeightSupport.carrying(100 - percent));
        assertThat(off.equals(WeightSupport.carrying(percent))).isEqualTo(percent == 50);
    }

    @Test
    void moreTakenOffIsLessCarried() {
        assertThat(WeightSupport.takingOff(40).takesOffMoreThan(WeightSupport.carrying(80)))
                .isTrue();
        assertThat(WeightSupport.takingOff(20).takesOffMoreThan(WeightSupport.carrying(80)))
                .isFalse();
    }

    @Test
    void aShareOutsideNothingToAllIsRefused() {
        assertThatThrownBy(() -> WeightSupport.carrying(101)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> WeightSupport.takingOff(-1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> WeightSupport.takingOff(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void nothingIsReadOutsideTheMeasuredPoints() {
        SupportAccuracy accuracy = new SupportAccuracy(List.of(
                new SupportAccuracy.Point(WeightSupport.carrying(40), WeightSupport.carrying(44)),
                new SupportAccuracy.Point(WeightSupport.carrying(60), WeightSupport.carrying(60))));
        assertThat(accuracy.delivered(WeightSupport.carrying(50))).contains(WeightSupport.carrying(52));
        assertThat(accuracy.delivered(WeightSupport.carrying(39))).isEmpty();
        assertThat(accuracy.delivered(WeightSupport.carrying(61))).isEmpty();
    }
}
