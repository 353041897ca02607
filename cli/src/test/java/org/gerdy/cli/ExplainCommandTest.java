package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ExplainCommandTest {
    private static final String INJURED =
            "gerdy: 1\ncase: a\nvisits:\n  - date: 2026-03-02\n    side: left\n    findings:"
                    + " {age: 41, sex: male, acute-injury: present, days-since-injury: 2, four-steps-now: absent, calf-swelling: absent,"
                    + " knee-flexion: 80}\n";

    private static Run explain(String conclusion) {
        return Run.fed(INJURED, "explain", "-", conclusion);
    }

    @Test
    void aRaisedFlagShowsItsRuleWhatItReadAndItsSources() {
        Run run = explain("possible-fracture");
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("Red flag possible-fracture: raised, same-day")
                .contains("Rule film-rule-flexion")
                .contains("knee-flexion: 80 left")
                .contains("stiell1995: ");
    }

    @Test
    void anOpenFlagShowsWhatIsStillToAsk() {
        Run run = explain("cauda-equina");
        assertThat(run.out()).contains("Red flag cauda-equina: open").contains("[saddle-or-sphincter-change]");
    }

    @Test
    void aClearedFlagShowsWhatClearedIt() {
        Run run = explain("deep-vein-thrombosis");
        assertThat(run.out()).contains(": cleared").contains("calf-swelling: absent");
    }

    @Test
    void aRowOutsideItsPopulationSaysThatThisIsNoNegative() {
        Run run = explain("child-hip");
        assertThat(run.out())
                .contains("not-applicable")
                .containsIgnoringWhitespaces("Not applicable is never a negative");
    }

    @Test
    void oneRowCanBeExplainedByItself() {
        Run run = explain("possible-fracture/cannot-walk-now");
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("four-steps-now: absent").doesNotContain("five-item-rule");
    }

    @Test
    void anUnknownIdIsToldWithTheNearestOne() {
        Run run = explain("posible-fracture");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).isEmpty();
        assertThat(run.err())
                .isEqualToIgnoringNewLines(
                        "There is no conclusion 'posible-fracture'; did you mean 'possible-fracture'?");
    }

    @Test
    void aConditionShowsItsWeights() {
        Run run = explain("acute-fracture");
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("Candidate acute-fracture")
                .contains("likelihood ratio")
                .containsIgnoringWhitespaces("not validated");
    }

    @Test
    void everythingTogetherFitsEightyColumns() {
        Run all = Run.of("explain", Run.DEMO);
        assertThat(all.code()).isZero();
        assertThat(all.linesWiderThan(80)).isEmpty();
        Run injured = Run.fed(INJURED, "explain", "-");
        assertThat(injured.linesWiderThan(80)).isEmpty();
        for (String flag : new String[] {
            "possible-fracture", "child-hip", "deep-vein-thrombosis", "acute-fracture", "no-change-8-weeks"
        }) {
            assertThat(explain(flag).linesWiderThan(80)).as(flag).isEmpty();
        }
    }
}
