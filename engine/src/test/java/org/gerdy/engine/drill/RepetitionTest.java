package org.gerdy.engine.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

/** Values by the formulas of Wozniak 1990, Optimization of learning, section 3.2. */
class RepetitionTest {
    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    private static Repetition after(int... grades) {
        Repetition repetition = Repetition.fresh(DAY);
        for (int grade : grades) {
            repetition = repetition.graded(grade, DAY);
        }
        return repetition;
    }

    @Test
    void theFirstTwoIntervalsAreOneAndSixDays() {
        assertThat(after(4).interval()).isEqualTo(1);
        assertThat(after(4, 4).interval()).isEqualTo(6);
    }

    @Test
    void gradeFourLeavesTheFactorAndTheThirdIntervalIsFifteenDays() {
        // EF' = EF + (0.1 - 1 * (0.08 + 1 * 0.02)) = EF; 6 * 2.5 = 15.
        assertThat(after(4, 4, 4).easiness()).isCloseTo(2.5, within(1e-9));
        assertThat(after(4, 4, 4).interval()).isEqualTo(15);
    }

    @Test
    void gradeThreeLowersTheFactorByFourteenHundredths() {
        // 0.1 - 2 * (0.08 + 2 * 0.02) = -0.14.
        assertThat(after(3).easiness()).isCloseTo(2.36, within(1e-9));
    }

    @Test
    void aFailedGradeStartsOverAndLeavesTheFactor() {
        Repetition failed = after(5, 5, 5, 2);
        assertThat(failed.interval()).isEqualTo(1);
        assertThat(failed.repetitions()).isZero();
        assertThat(failed.easiness()).isCloseTo(2.8, within(1e-9));
        assertThat(failed.due()).isEqualTo(DAY.plusDays(1));
    }

    @Property
    void theFactorNeverFallsBelowOnePointThree(@ForAll @Size(max = 40) List<@IntRange(max = 5) Integer> grades) {
        Repetition repetition = Repetition.fresh(DAY);
        for (int grade : grades) {
            repetition = repetition.graded(grade, DAY);
        }
        assertThat(repetition.easiness()).isGreaterThanOrEqualTo(1.3);
    }

    @Property
    void aBetterGradeNeverComesBackSooner(
            @ForAll @Size(max = 8) List<@IntRange(min = 3, max = 5) Integer> before,
            @ForAll @IntRange(max = 4) int grade) {
        Repetition repetition = Repetition.fresh(DAY);
        for (int one : before) {
            repetition = repetition.graded(one, DAY);
        }
        assertThat(repetition.graded(grade + 1, DAY).due())
                .isAfterOrEqualTo(repetition.graded(grade, DAY).due());
    }

    @Test
    void aGradeOutsideTheScaleIsRefused() {
        assertThatThrownBy(() -> after(6)).isInstanceOf(IllegalArgumentException.class);
    }
}
