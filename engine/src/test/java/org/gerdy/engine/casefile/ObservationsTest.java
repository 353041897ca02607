package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gerdy.engine.casefile.Answer.State.ABSENT;
import static org.gerdy.engine.casefile.Answer.State.PRESENT;
import static org.gerdy.engine.casefile.Answer.State.UNABLE;
import static org.gerdy.engine.logic.Truth.FALSE;
import static org.gerdy.engine.logic.Truth.TRUE;
import static org.gerdy.engine.logic.Truth.UNKNOWN;

import java.util.List;
import java.util.Map;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ObservationsTest {
    private static Observations one(Side side, String id, @Nullable Answer left, @Nullable Answer right) {
        return Sample.known(side, Map.of(id, Sample.sides(left, right)));
    }

    @Test
    void aSignOnEitherSideCounts() {
        assertThat(one(Side.LEFT, "fluid", ABSENT, PRESENT).is("fluid", "present"))
                .isEqualTo(TRUE);
        assertThat(one(Side.LEFT, "fluid", PRESENT, ABSENT).is("fluid", "present"))
                .isEqualTo(TRUE);
    }

    @Test
    void theOtherSideAloneNeverClearsThePainfulOne() {
        Observations other = one(Side.LEFT, "fluid", null, ABSENT);
        assertThat(other.is("fluid", "present")).isEqualTo(UNKNOWN);
        assertThat(other.is("fluid", "absent")).isEqualTo(UNKNOWN);
        assertThat(other.isKnown("fluid")).isFalse();
    }

    @Test
    void thePainfulSideAloneClears() {
        Observations painful = one(Side.LEFT, "fluid", ABSENT, null);
        assertThat(painful.is("fluid", "present")).isEqualTo(FALSE);
        assertThat(painful.is("fluid", "absent")).isEqualTo(TRUE);
        assertThat(painful.isKnown("fluid")).isTrue();
    }

    @Test
    void absentNeedsEveryPainfulSide() {
        assertThat(one(Side.BOTH, "fluid", ABSENT, null).is("fluid", "absent")).isEqualTo(UNKNOWN);
        assertThat(one(Side.BOTH, "fluid", ABSENT, ABSENT).is("fluid", "absent"))
                .isEqualTo(TRUE);
        assertThat(one(Side.BOTH, "fluid", ABSENT, PRESENT).is("fluid", "absent"))
                .isEqualTo(FALSE);
    }

    @Test
    void whereAbsentIsTheSignTheOtherSideAloneNeverClearsEither() {
        Observations other = one(Side.LEFT, "can-lift", null, PRESENT);
        assertThat(other.is("can-lift", "absent")).isEqualTo(UNKNOWN);
        assertThat(other.isKnown("can-lift")).isFalse();
        assertThat(one(Side.LEFT, "can-lift", PRESENT, null).isKnown("can-lift"))
                .isTrue();
    }

    @Test
    void whereAbsentIsTheSignEitherSideCounts() {
        assertThat(one(Side.LEFT, "can-lift", PRESENT, ABSENT).is("can-lift", "absent"))
                .isEqualTo(TRUE);
        assertThat(one(Side.LEFT, "can-lift", PRESENT, ABSENT).is("can-lift", "present"))
                .isEqualTo(FALSE);
    }

    @Test
    void unableIsUnknownAndNeverAbsent() {
        Observations unable = one(Side.LEFT, "fluid", UNABLE, null);
        assertThat(unable.is("fluid", "present")).isEqualTo(UNKNOWN);
        assertThat(unable.is("fluid", "absent")).isEqualTo(UNKNOWN);
        assertThat(unable.isUnable("fluid")).isTrue();
        assertThat(unable.isKnown("fluid")).isFalse();
        assertThat(one(Side.LEFT, "fluid", UNABLE, PRESENT).isUnable("fluid")).isFalse();
    }

    @Test
    void aFindingWhoseGateIsKnownFalseIsNotApplicableAndReadsFalse() {
        Observations dry = one(Side.LEFT, "fluid", ABSENT, null);
        assertThat(dry.is("tense-fluid", "present")).isEqualTo(FALSE);
        assertThat(dry.is("tense-fluid", "absent")).isEqualTo(FALSE);
        assertThat(dry.isKnown("tense-fluid")).isTrue();
        assertThat(dry.shown("tense-fluid")).isEqualTo("not applicable");
    }

    @Test
    void aRecordedAnswerCountsWhateverItsGateSays() {
        Observations both = Sample.known(
                Side.LEFT, Map.of("fluid", Sample.sides(ABSENT, null), "tense-fluid", Sample.sides(PRESENT, null)));
        assertThat(both.is("tense-fluid", "present")).isEqualTo(TRUE);
    }

    @Test
    void anAnswerThatSettlesNothingLeavesAShutQuestionAsIfNobodyAsked() {
        for (Recorded settlesNothing : List.of(Sample.sides(null, ABSENT), Sample.sides(UNABLE, null))) {
            Observations dry =
                    Sample.known(Side.LEFT, Map.of("fluid", Sample.sides(ABSENT, null), "tense-fluid", settlesNothing));
            assertThat(dry.is("tense-fluid", "present")).isEqualTo(FALSE);
            assertThat(dry.is("tense-fluid", "absent")).isEqualTo(FALSE);
            assertThat(dry.isKnown("tense-fluid")).isTrue();
            assertThat(dry.speaksForPainfulSide("tense-fluid")).isFalse();
        }
    }

    @Test
    void anUnknownGateIsAskedBeforeTheFinding() {
        Observations nothing = Sample.known(Side.LEFT, Map.of());
        assertThat(nothing.missing("tense-fluid")).containsExactly("fluid");
        assertThat(one(Side.LEFT, "fluid", PRESENT, null).missing("tense-fluid"))
                .containsExactly("tense-fluid");
        assertThat(nothing.missing(Expression.parse("fresh-injury=present OR girth-larger=present")))
                .containsExactly("injury", "girth");
    }

    @ParameterizedTest(name = "{0} side: left {1}, right {2} differ by 3 or more: {3}")
    @CsvSource({
        "LEFT, 38.0, 35.0, TRUE",
        "LEFT, 37.96, 35.0, FALSE",
        // 32.3 less 29.3 is 2.9999999999999964 in binary fractions.
        "LEFT, 32.3, 29.3, TRUE",
        "LEFT, 35.0, 38.0, FALSE",
        "RIGHT, 35.0, 38.0, TRUE",
        "RIGHT, 38.0, 35.0, FALSE",
        "BOTH, 35.0, 38.0, TRUE",
        "BOTH, 38.0, 35.0, TRUE"
    })
    void aSideDifferenceIsPainfulMinusOtherAndNeverRounded(Side side, double left, double right, Truth expected) {
        Observations known = Sample.known(side, Map.of("girth", Sample.numbers(left, right)));
        assertThat(known.compareSides("girth", Comparison.AT_LEAST, 3.0)).isEqualTo(expected);
        assertThat(known.computed("girth-larger")).isEqualTo(expected);
    }

    @Test
    void oneSideAloneGivesNoDifference() {
        Observations known = one(Side.LEFT, "girth", new Answer.Quantity(38, "38 cm"), null);
        assertThat(known.sideDifference("girth")).isEmpty();
        assertThat(known.isKnown("girth")).isFalse();
        assertThat(known.isKnown("girth-larger")).isFalse();
    }

    @Test
    void twoNumbersAreComparedOnTheSameSide() {
        Observations known =
                Sample.known(Side.LEFT, Map.of("average", Sample.numbers(7, 0), "pain", Sample.numbers(5, 10)));
        assertThat(known.compareTo("average", Comparison.ABOVE, 1, "pain")).isEqualTo(TRUE);
        Observations right =
                Sample.known(Side.RIGHT, Map.of("average", Sample.numbers(4, 0), "pain", Sample.numbers(5, 10)));
        assertThat(right.compareTo("average", Comparison.ABOVE, 1, "pain")).isEqualTo(FALSE);
        assertThat(right.compareTo("average", Comparison.ABOVE, 1, "age")).isEqualTo(UNKNOWN);
    }

    @Test
    void aSignOnTheOtherSideAloneIsNoEvidenceAboutThePainfulOne() {
        assertThat(one(Side.LEFT, "fluid", ABSENT, PRESENT).speaksForPainfulSide("fluid"))
                .isFalse();
        assertThat(one(Side.LEFT, "fluid", PRESENT, PRESENT).speaksForPainfulSide("fluid"))
                .isTrue();
        assertThat(one(Side.LEFT, "fluid", ABSENT, null).speaksForPainfulSide("fluid"))
                .isTrue();
        assertThat(one(Side.LEFT, "can-lift", PRESENT, ABSENT).speaksForPainfulSide("can-lift"))
                .isFalse();
        assertThat(one(Side.LEFT, "can-lift", ABSENT, PRESENT).speaksForPainfulSide("can-lift"))
                .isTrue();
    }

    @Test
    void changingAnAnswerLeavesTheOriginalAlone() {
        Observations before = one(Side.LEFT, "fluid", ABSENT, null);
        Observations after = before.with("fluid", Sample.sides(PRESENT, null));
        assertThat(before.is("fluid", "present")).isEqualTo(FALSE);
        assertThat(after.is("fluid", "present")).isEqualTo(TRUE);
        assertThat(after.without("fluid").recorded("fluid")).isEmpty();
    }

    @Test
    void anAnswerIsShownWithItsSideAndItsUnitAsWritten() {
        Observations known = Sample.known(
                Side.LEFT,
                Map.of(
                        "girth",
                        Sample.sides(new Answer.Quantity(38, "38 cm"), new Answer.Quantity(35, "35 cm")),
                        "age",
                        Sample.number(70)));
        assertThat(known.shown("girth")).isEqualTo("38 cm left, 35 cm right");
        assertThat(known.shown("old")).isEqualTo("present");
        assertThat(known.shown("warm")).isEqualTo("not asked");
    }
}
