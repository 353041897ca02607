package org.gerdy.engine.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gerdy.engine.logic.Truth.FALSE;
import static org.gerdy.engine.logic.Truth.TRUE;
import static org.gerdy.engine.logic.Truth.UNKNOWN;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ExpressionTest {
    private static Truth of(String expression, Known known) {
        return Expression.parse(expression).in(known);
    }

    @Test
    void andBindsCloserThanOr() {
        assertThat(Expression.parse("a=present OR b=present AND c=present"))
                .isEqualTo(Expression.parse("a=present OR (b=present AND c=present)"))
                .isNotEqualTo(Expression.parse("(a=present OR b=present) AND c=present"));
    }

    @Test
    void notBindsCloserThanAnd() {
        Known known = new Known().state("a", "absent").state("b", "absent");
        assertThat(of("NOT a=present AND b=present", known)).isEqualTo(FALSE);
        assertThat(of("NOT (a=present AND b=present)", known)).isEqualTo(TRUE);
    }

    @Test
    void whatWasNotAskedIsNeitherPresentNorAbsent() {
        assertThat(of("a=present", new Known())).isEqualTo(UNKNOWN);
        assertThat(of("a=absent", new Known())).isEqualTo(UNKNOWN);
        assertThat(of("NOT a=present", new Known())).isEqualTo(UNKNOWN);
    }

    @Test
    void atLeastTwoIsTrueAsSoonAsTwoHold() {
        Known known = new Known().state("a", "present").state("b", "present");
        assertThat(of("at-least-2(a=present, b=present, c=present)", known)).isEqualTo(TRUE);
    }

    @Test
    void atLeastTwoIsFalseOnlyWhenTwoCanNoLongerHold() {
        Known one = new Known().state("a", "present").state("b", "absent");
        assertThat(of("at-least-2(a=present, b=present, c=present)", one)).isEqualTo(UNKNOWN);
        assertThat(of("at-least-2(a=present, b=present, c=present)", one.state("c", "absent")))
                .isEqualTo(FALSE);
    }

    @Test
    void aScoreIsDecidedWhenItsLowestAndHighestTotalAgree() {
        String score = "points(1:a=present, 1:b=present, -2:c=present) >= 2";
        Known two = new Known().state("a", "present").state("b", "present");
        assertThat(of(score, two)).isEqualTo(UNKNOWN);
        assertThat(of(score, two.state("c", "absent"))).isEqualTo(TRUE);
        assertThat(of(score, new Known().state("a", "absent"))).isEqualTo(FALSE);
    }

    @Test
    void aScoreHeldAgainstOneExactTotalStaysOpenWhileTheTotalCanStillBeReached() {
        String score = "points(1:a=present, 1:b=present) = 1";
        assertThat(of(score, new Known())).isEqualTo(UNKNOWN);
        assertThat(of(score, new Known().state("a", "present").state("b", "present")))
                .isEqualTo(FALSE);
        assertThat(of(score, new Known().state("a", "present").state("b", "absent")))
                .isEqualTo(TRUE);
    }

    @Test
    void recordedIsNeverUnknown() {
        assertThat(of("recorded(a=present)", new Known())).isEqualTo(FALSE);
        assertThat(of("recorded(a=present)", new Known().state("a", "present"))).isEqualTo(TRUE);
    }

    @ParameterizedTest(name = "{0} with exactly 3 is as written")
    @ValueSource(strings = {"n>=3", "n<=3", "n=3", "NOT n>3", "NOT n<3"})
    void aCutOffIncludesOrLeavesOutItsOwnValueAsWritten(String expression) {
        assertThat(of(expression, new Known().number("n", 3))).isEqualTo(TRUE);
    }

    @Test
    void aSideDifferenceIsComparedUnrounded() {
        assertThat(of("side-diff(n)>=3.0", new Known().difference("n", 2.96))).isEqualTo(FALSE);
        assertThat(of("side-diff(n)>=3.0", new Known().difference("n", 3.0))).isEqualTo(TRUE);
    }

    @Test
    void oneNumberIsComparedWithAMultipleOfAnother() {
        Known known = new Known().number("days", 15).number("weeks", 2);
        assertThat(of("days > 7 x weeks", known)).isEqualTo(TRUE);
        assertThat(of("days > 8 x weeks", known)).isEqualTo(FALSE);
        assertThat(of("days > 8 x years", known)).isEqualTo(UNKNOWN);
    }

    @Test
    void aChoiceThatStartsWithADigitIsNotANumber() {
        assertThat(Expression.parse("a=3-to-5")).isEqualTo(new Expression.Is("a", "3-to-5"));
    }

    @Test
    void theFindingsReadAreListedOnceInTheOrderWritten() {
        assertThat(Expression.parse("b=present AND (a>=1 OR b=absent) AND side-diff(c)>2 AND d > 2 x e")
                        .findings())
                .containsExactly("b", "a", "c", "d", "e");
    }

    @ParameterizedTest(name = "''{0}'' is refused")
    @ValueSource(
            strings = {
                "",
                "a",
                "a=",
                "a=present AND",
                "a=present OR OR b=present",
                "(a=present",
                "a=present)",
                "a>=present",
                "a>>3",
                "at-least-x(a=present)",
                "at-least-2()",
                "points(a=present)>=2",
                "points(1:a=present)",
                "side-diff(a=present)>=3",
                "a=present b=present",
                "A=present"
            })
    void aMalformedExpressionIsRefusedWithThePlaceAndWhatWasExpected(String text) {
        assertThatThrownBy(() -> Expression.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageMatching("(?s)Expected .+ at character [0-9]+ of: .*");
    }
}
