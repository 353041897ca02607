package org.gerdy.engine.logic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class PointsTest {
    @Test
    void theRangeRunsOverEverythingUnanswered() {
        Points points = points(List.of(3, 2, -2));
        assertThat(points.total(new Known())).isEqualTo(new Points.Total(-2, 5));
        assertThat(points.total(new Known().state("f0", "present"))).isEqualTo(new Points.Total(1, 5));
        assertThat(points.total(
                        new Known().state("f0", "present").state("f1", "absent").state("f2", "absent")))
                .isEqualTo(new Points.Total(3, 3));
    }

    @Property
    void everyCompletionLiesInsideTheRangeAndBothEndsAreReached(
            @ForAll @Size(min = 1, max = 7) List<@IntRange(min = -3, max = 3) Integer> weights,
            @ForAll @IntRange(max = 2186) int pattern) {
        Points points = points(weights);
        List<Integer> open = new ArrayList<>();
        Known known = new Known();
        int rest = pattern;
        for (int i = 0; i < weights.size(); i++) {
            switch (rest % 3) {
                case 0 -> known.state("f" + i, "present");
                case 1 -> known.state("f" + i, "absent");
                default -> open.add(i);
            }
            rest /= 3;
        }
        Points.Total range = points.total(known);
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (int completion = 0; completion < 1 << open.size(); completion++) {
            for (int i = 0; i < open.size(); i++) {
                known.state("f" + open.get(i), (completion >> i & 1) == 1 ? "present" : "absent");
            }
            Points.Total total = points.total(known);
            assertThat(total.low()).isEqualTo(total.high());
            least = Math.min(least, total.low());
            most = Math.max(most, total.high());
        }
        assertThat(least).isEqualTo(range.low());
        assertThat(most).isEqualTo(range.high());
    }

    private static Points points(List<Integer> weights) {
        List<Points.Item> items = new ArrayList<>();
        for (int i = 0; i < weights.size(); i++) {
            items.add(new Points.Item(weights.get(i), new Expression.Is("f" + i, "present")));
        }
        return new Points(items);
    }
}
