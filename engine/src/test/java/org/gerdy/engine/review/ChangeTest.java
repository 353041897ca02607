package org.gerdy.engine.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.gerdy.engine.knowledge.NumberRange;
import org.gerdy.engine.vocabulary.Basis;
import org.junit.jupiter.api.Test;

class ChangeTest {
    private static final LocalDate DAY = LocalDate.of(2026, 5, 1);
    private static final Instrument UP =
            new Instrument("up", "up", Instrument.Role.REGION, List.of("up"), 0, OptionalDouble.of(100), true);
    private static final Instrument DOWN =
            new Instrument("down", "down", Instrument.Role.REGION, List.of("down"), 0, OptionalDouble.of(100), false);

    private static Threshold threshold(Optional<NumberRange> error, Optional<NumberRange> matters) {
        Measurement row = new Measurement(
                "row",
                "up",
                OptionalDouble.empty(),
                error,
                OptionalDouble.empty(),
                matters,
                "people",
                List.of(),
                Basis.JUDGEMENT,
                "");
        return new Threshold(Optional.of(row), Optional.of(row), "");
    }

    private static Change change(Instrument instrument, double from, double to, Threshold threshold) {
        return Change.of(instrument, DAY, from, DAY.plusDays(30), to, threshold);
    }

    @Property
    void turningTheScaleRoundTurnsNothingElse(
            @ForAll @IntRange(max = 100) int from, @ForAll @IntRange(max = 100) int to) {
        Threshold threshold = threshold(Optional.of(new NumberRange(5, 8)), Optional.of(new NumberRange(10, 10)));
        assertThat(change(DOWN, 100 - from, 100 - to, threshold).verdict())
                .isEqualTo(change(UP, from, to, threshold).verdict());
    }

    @Property
    void aLossBeyondErrorIsWorseAndAGainIsBetterOnlyWhenItAlsoMatters(
            @ForAll @IntRange(max = 100) int from, @ForAll @IntRange(max = 100) int to) {
        Threshold threshold = threshold(Optional.of(new NumberRange(5, 8)), Optional.of(new NumberRange(10, 10)));
        int gain = to - from;
        assertThat(change(UP, from, to, threshold).verdict())
                .isEqualTo(
                        gain >= 10 ? Verdict.BETTER_THAN_ERROR : gain <= -5 ? Verdict.WORSE : Verdict.NO_SURE_CHANGE);
    }

    @Test
    void withoutAnyThresholdNothingIsClaimed() {
        Change change = change(UP, 0, 100, new Threshold(Optional.empty(), Optional.empty(), ""));
        assertThat(change.verdict()).isEqualTo(Verdict.NO_SURE_CHANGE);
        assertThat(change.remark()).startsWith("No threshold is known");
    }

    @Test
    void theRoomLeftAtTheFirstVisitDecidesWhetherAGainCanShow() {
        Threshold threshold = threshold(Optional.empty(), Optional.of(new NumberRange(9, 9)));
        assertThat(change(UP, 92, 100, threshold).untestable()).isTrue();
        assertThat(change(UP, 91, 100, threshold).untestable()).isFalse();
        assertThat(change(DOWN, 8, 0, threshold).untestable()).isTrue();
    }

    @Test
    void tenthsAddUpWithoutFallingShort() {
        Threshold threshold = threshold(Optional.empty(), Optional.of(new NumberRange(2.3, 2.3)));
        // 6.3 - 4 is 2.3 minus a little in floating point.
        assertThat(change(UP, 4, 6.3, threshold).verdict()).isEqualTo(Verdict.BETTER_THAN_ERROR);
    }
}
