package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The two radiograph rules as published: exact criteria, exact limits, and silence outside their population. */
class RadiographRulesTest {
    private static final String FIVE = "five-item-rule";
    private static final String FALL = "fall-or-blow-rule";

    /** Injured today, every criterion of both rules answered the healthy way. */
    private static Patient injured(int age) {
        return Patient.aged(age)
                .with(
                        "acute-injury",
                        "days-since-injury: 0",
                        "four-steps-now: present",
                        "four-steps-at-injury: present",
                        "tender-patella: absent",
                        "tender-fibular-head: absent",
                        "focal-bony-tenderness: absent",
                        "knee-flexion: 130",
                        "fracture-rule-excluded: absent",
                        "fall-or-blunt-trauma: absent",
                        "prior-knee-procedure: absent",
                        "prior-knee-injury: absent");
    }

    private static Patient fell(int age) {
        return injured(age).with("fall-or-blunt-trauma");
    }

    @Test
    void fiftyFourIsBelowTheAgeOfTheRuleAndFiftyFiveMeetsIt() {
        assertThat(injured(54).decision(FIVE)).isEqualTo("negative"); // Stiell 1995
        assertThat(injured(55).decision(FIVE)).isEqualTo("positive"); // Stiell 1995
        assertThat(injured(55).row("possible-fracture/five-item-rule")).isEqualTo("raised");
    }

    @Test
    void aTenderKneecapCountsOnlyWhenNoOtherBoneIsTender() {
        Patient kneecap = injured(30).with("tender-patella");
        assertThat(kneecap.decision(FIVE)).isEqualTo("positive"); // Stiell 1995
        assertThat(kneecap.decisionRule(FIVE).met()).containsExactly("kneecap the only tender bone");
        Patient more = kneecap.with("focal-bony-tenderness", "bony-tenderness-site: tibial-plateau");
        assertThat(more.decision(FIVE)).isEqualTo("negative"); // Stiell 1995: isolated
    }

    @Test
    void severalTenderBonesAreNegativeUnderTheRuleAndStillFilmed() {
        Patient several =
                injured(30).with("tender-patella", "focal-bony-tenderness", "bony-tenderness-site: tibial-plateau");
        assertThat(several.row("possible-fracture/other-tender-bone"))
                .isEqualTo("raised"); // common practice, no source
        assertThat(several.flag("possible-fracture")).isEqualTo("raised same-day");
    }

    @Test
    void aTenderHeadOfTheFibulaMeetsTheRuleAfterAFreshTwist() {
        assertThat(injured(30)
                        .with("tender-fibular-head", "days-since-injury: 2")
                        .decision(FIVE))
                .isEqualTo("positive"); // Stiell 1995
    }

    @Test
    void withoutAnInjuryTheRuleIsNotApplicableAndNeverNegative() {
        Patient overuse = injured(30)
                .with("acute-injury: absent", "tender-fibular-head", "symptom-duration: 13")
                .without("days-since-injury");
        assertThat(overuse.decision(FIVE)).isEqualTo("not-applicable"); // Stiell 1995: acute injury
        assertThat(overuse.decision(FALL)).isEqualTo("not-applicable"); // Seaberg 1994: fall or blunt trauma
        assertThat(overuse.row("possible-fracture/five-item-rule")).isIn("not-applicable", "not-triggered");
    }

    @Test
    void theWalkingItemNeedsBothTimes() {
        Patient then = injured(30).with("four-steps-at-injury: absent");
        Patient now = injured(30).with("four-steps-now: absent");
        Patient both = then.with("four-steps-now: absent");
        assertThat(then.decision(FIVE)).isEqualTo("negative"); // Stiell 1995: both times
        assertThat(now.decision(FIVE)).isEqualTo("negative"); // Stiell 1995: both times
        assertThat(both.decision(FIVE)).isEqualTo("positive"); // Stiell 1995
    }

    @Test
    void whoCannotWalkNowIsFilmedThoughTheRuleIsNegative() {
        Patient now = injured(30).with("four-steps-now: absent");
        assertThat(now.row("possible-fracture/cannot-walk-now")).isEqualTo("raised"); // common practice, no source
        assertThat(now.flag("cannot-bear-weight")).isEqualTo("raised same-day");
    }

    @Test
    void ninetyDegreesIsFarEnoughAndEightyNineIsNot() {
        assertThat(injured(30).with("knee-flexion: 90").decision(FIVE)).isEqualTo("negative"); // Stiell 1995
        assertThat(injured(30).with("knee-flexion: 89").decision(FIVE)).isEqualTo("positive"); // Stiell 1995
        assertThat(injured(30).with("knee-flexion: 89.99").decision(FIVE)).isEqualTo("positive"); // unrounded
    }

    @Test
    void aWeekIsInsideTheStudiedTimeAndEightDaysAreOutside() {
        assertThat(injured(30).with("days-since-injury: 7").decision(FIVE)).isEqualTo("negative");
        assertThat(injured(30).with("days-since-injury: 8").decision(FIVE))
                .isEqualTo("not-applicable"); // Stiell 1995, exclusions (recalled)
        assertThat(injured(70).with("days-since-injury: 8").decision(FIVE)).isEqualTo("not-applicable");
    }

    @Test
    void fromFiveYearsTheRuleAppliesAndBelowItDoesNot() {
        assertThat(injured(17).decision(FIVE)).isEqualTo("negative"); // Bulloch 2003, ages 2 to 16
        assertThat(injured(5).decision(FIVE)).isEqualTo("negative"); // Vijayasankar 2009: over 5
        assertThat(injured(4).decision(FIVE)).isEqualTo("not-applicable"); // Vijayasankar 2009
    }

    @Test
    void oneAnswerMissingLeavesTheRuleIncompleteUntilACriterionIsMet() {
        Patient missing = injured(30).without("knee-flexion");
        assertThat(missing.decision(FIVE)).isEqualTo("incomplete");
        assertThat(missing.decisionRule(FIVE).unanswered()).containsExactly("knee-flexion");
        assertThat(missing.with("tender-fibular-head").decision(FIVE)).isEqualTo("positive"); // Stiell 1995: any one
        Patient fibula = Patient.aged(30).with("acute-injury", "days-since-injury: 1", "tender-fibular-head");
        assertThat(fibula.decision(FIVE)).isEqualTo("positive"); // Stiell 1995: any one
    }

    @Test
    void theIntoxicatedAreOutsideTheRuleAndStillFlagged() {
        Patient excluded = injured(30).with("fracture-rule-excluded");
        assertThat(excluded.decision(FIVE)).isEqualTo("not-applicable"); // Stiell 1995, exclusions (recalled)
        assertThat(excluded.row("possible-fracture/outside-the-rules")).isEqualTo("raised");
    }

    @Test
    void theFallRuleWantsMoreThanFiftyOrLessThanTwelve() {
        assertThat(fell(50).decision(FALL)).isEqualTo("negative"); // Seaberg 1994
        assertThat(fell(51).decision(FALL)).isEqualTo("positive"); // Seaberg 1994
        assertThat(fell(12).decision(FALL)).isEqualTo("negative"); // Seaberg 1994
        assertThat(fell(11).decision(FALL)).isEqualTo("positive"); // Seaberg 1994
    }

    @Test
    void aBlowAndLessThanFourStepsMeetsTheFallRule() {
        assertThat(fell(35).with("four-steps-now: absent").decision(FALL)).isEqualTo("positive"); // Seaberg 1994
    }

    @Test
    void aPureTwistIsNegativeUnderTheFallRuleAndNeverCancelsTheFiveItemRule() {
        Patient twist = injured(70).with("four-steps-now: absent");
        assertThat(twist.decision(FALL)).isEqualTo("negative"); // Seaberg 1994: fall or blunt trauma
        assertThat(twist.decision(FIVE)).isEqualTo("positive"); // Stiell 1995: age
        assertThat(twist.flag("possible-fracture")).isEqualTo("raised same-day");
    }

    @Test
    void theFallRuleIsNotApplicableLateOrAfterSurgeryOfThatKnee() {
        assertThat(fell(60).with("days-since-injury: 10").decision(FALL))
                .isEqualTo("not-applicable"); // Seaberg 1994 (recalled)
        assertThat(fell(60).with("prior-knee-procedure").decision(FALL))
                .isEqualTo("not-applicable"); // Seaberg 1994 (recalled)
    }
}
