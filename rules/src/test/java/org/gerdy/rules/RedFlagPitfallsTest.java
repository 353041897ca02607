package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.ScoreResult;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.junit.jupiter.api.Test;

/** What a rule author gets wrong first about red flags: each known pitfall has its test. */
class RedFlagPitfallsTest {
    private static String everyWordShown(Patient patient) {
        return AssessmentJson.pretty(patient.assessed()).toLowerCase(Locale.ROOT);
    }

    private static Patient injured(int age) {
        return Patient.aged(age).with("acute-injury", "days-since-injury: 1");
    }

    // The ten pitfalls.

    @Test
    void outsideItsPopulationARadiographRuleIsNotApplicableAndNeverNegative() {
        for (Patient outside : List.of(
                Patient.healthy(30),
                injured(30).with("days-since-injury: 8"),
                injured(3),
                injured(30).with("fracture-rule-excluded"))) {
            assertThat(outside.decisionRule("five-item-rule").outcome())
                    .isEqualTo(DecisionResult.Outcome.NOT_APPLICABLE);
        }
        for (DecisionResult rule : Patient.healthy(30).assessed().decisionRules()) {
            assertThat(rule.outcome()).isNotEqualTo(DecisionResult.Outcome.NEGATIVE);
        }
    }

    @Test
    void walkingCountsAtBothTimesTheKneecapOnlyAloneAndFiftyFiveItself() {
        assertThat(injured(30)
                        .with("four-steps-at-injury: absent", "four-steps-now: present")
                        .row("possible-fracture/five-item-rule"))
                .isNotEqualTo("raised"); // Stiell 1995
        assertThat(injured(30)
                        .with(
                                "tender-patella",
                                "tender-fibular-head: absent",
                                "focal-bony-tenderness",
                                "bony-tenderness-site: more-than-one")
                        .row("possible-fracture/five-item-rule"))
                .isNotEqualTo("raised"); // Stiell 1995
        assertThat(injured(55).row("possible-fracture/five-item-rule")).isEqualTo("raised"); // Stiell 1995
    }

    @Test
    void whoIsNegativeByTheRuleButCannotWalkOrHasOtherTenderBoneIsFlagged() {
        assertThat(injured(30)
                        .with("four-steps-at-injury", "four-steps-now: absent")
                        .flag("possible-fracture"))
                .isEqualTo("raised same-day"); // common practice, no source
        assertThat(injured(30).with("focal-bony-tenderness").flag("possible-fracture"))
                .isEqualTo("raised same-day"); // common practice, no source
    }

    @Test
    void theClotScoreIsOfOneVersionAndTheProgramNeverAwardsItsOwnMinusTwo() {
        Patient swollen = Patient.aged(40)
                .with(
                        "calf-swelling",
                        "tender-lateral-epicondyle",
                        "noble-compression",
                        "pain-site: lateral-epicondyle");
        assertThat(Totals.of("clot-score", swollen).high())
                .as("another condition that leads takes no points off")
                .isEqualTo(Totals.of("clot-score", Patient.aged(40).with("calf-swelling"))
                        .high());
        assertThat(Shipped.table("scores.csv").get(0).get("label")).contains("2003");
    }

    @Test
    void bothBandsOfTheClotScoreAreTheSameDay() {
        assertThat(Patient.aged(40)
                        .with("calf-swelling", "dvt-alternative-as-likely")
                        .urgency())
                .isEqualTo("same-day"); // NICE NG158
        assertThat(Patient.aged(40)
                        .with(
                                "calf-swelling",
                                "active-cancer",
                                "whole-leg-swollen",
                                "dvt-alternative-as-likely: absent")
                        .urgency())
                .isEqualTo("same-day"); // NICE NG158
    }

    @Test
    void neitherNoFeverNorKnownGoutNorWalkingClearsAHotJoint() {
        Patient hot =
                Patient.aged(50).with("acute-injury: absent", "warmth-palpable", "effusion-any", "hot-swollen-days: 2");
        for (String reassuring : List.of(
                "systemic-symptoms: absent",
                "fever: absent",
                "previous-joint-attack",
                "four-steps-now: present",
                "temperature: 36.8",
                "gp-impression-gout")) {
            assertThat(hot.with(reassuring).flag("septic-joint")).isEqualTo("raised emergency"); // Coakley 2006
        }
    }

    @Test
    void noHipSepsisScoreIsRunOnAKnee() {
        assertThat(Shipped.table("scores.csv"))
                .noneMatch(score -> score.toString().toLowerCase(Locale.ROOT).contains("kocher"));
        Patient child = Patient.aged(6).with("systemic-symptoms", "fever", "four-steps-now: absent", "effusion-any");
        assertThat(child.urgency()).isEqualTo("emergency"); // Obey 2019
        assertThat(child.assessed().scores()).noneMatch(ScoreResult::applicable);
        assertThat(everyWordShown(child))
                .doesNotContain("99.6")
                .doesNotContain("predictor"); // Kocher 1999 was about hips
    }

    @Test
    void firstPulsesReassureNobodyAndAnIndexIsNeverRounded() {
        Patient lax = injured(30).with("lachman", "varus-laxity-30", "foot-pulses-reduced: absent");
        assertThat(lax.flag("knee-dislocation")).isEqualTo("raised emergency"); // Barnes 2002
        assertThat(injured(30).with("ankle-brachial-index: 0.898").flag("knee-dislocation"))
                .isEqualTo("raised emergency"); // Mills 2004
        assertThat(injured(30).with("ankle-brachial-index: 0.8999").flag("knee-dislocation"))
                .isEqualTo("raised emergency"); // Mills 2004
    }

    @Test
    void aCompartmentNeedsNeitherNumbnessNorWeaknessNorALostPulseNorABlow() {
        Patient effort = Patient.aged(24)
                .with(
                        "acute-injury: absent",
                        "pain-out-of-proportion",
                        "passive-stretch-pain",
                        "unaccustomed-exertion",
                        "leg-neuro-symptoms: absent",
                        "dorsiflexion-weakness: absent",
                        "eversion-weakness: absent",
                        "foot-pulses-reduced: absent");
        assertThat(effort.flag("acute-compartment-syndrome")).isEqualTo("raised emergency"); // Ulmer 2002, Alrayes 2023
    }

    @Test
    void aKneeIsNeverHighForGoutWithoutAUrate() {
        Patient all = Patient.aged(55)
                .with(
                        "sex: male",
                        "previous-joint-attack",
                        "attack-peak-within-day",
                        "redness-joint",
                        "hypertension-or-cardiovascular");
        assertThat(Totals.of("gout-score", all).low()).isEqualTo(7.0); // Janssens 2010
        assertThat(all.score("gout-score")).doesNotContain("high");
        assertThat(Totals.of("gout-score", all.with("sex: female")).low()).isEqualTo(5.0); // Janssens 2010
    }

    @Test
    void nightPainHipPainAndABladderComplaintAreNeverRequired() {
        assertThat(Patient.aged(15)
                        .with("unexplained-bone-pain", "pain-rest-or-night: absent")
                        .flag("bone-tumour"))
                .isEqualTo("raised urgent"); // Pan 2010: 37 %
        assertThat(Patient.aged(13)
                        .with("hip-ir-limited", "groin-pain: absent", "thigh-pain: absent", "limp: absent")
                        .flag("child-hip"))
                .isEqualTo("raised same-day"); // Green 2005: 60 %
        RedFlagRow cauda =
                Shipped.GERDY.knowledge().rowsByFlag().get("cauda-equina").get(0);
        assertThat(cauda.needs()).contains("saddle-or-sphincter-change"); // Dionne 2019: asked of everybody
    }

    // Errors of a rule author that the pitfalls above do not already hold.

    @Test
    void aRuleNobodyCanRunHereSaysNothingReassuring() {
        for (DecisionResult rule : Patient.healthy(28).assessed().decisionRules()) {
            assertThat(rule.means()).doesNotContainIgnoringCase("excluded").doesNotContainIgnoringCase("no fracture");
        }
    }

    @Test
    void oneMetCriterionBeatsAllThatIsUnanswered() {
        assertThat(injured(30).with("tender-fibular-head").decision("five-item-rule"))
                .isEqualTo("positive"); // Stiell 1995
    }

    @Test
    void aClotScoreOfTwoThousandAndThreeAsksForTwelveWeeksThreeDaysAndThreeCentimetres() {
        assertThat(Shipped.GERDY
                        .knowledge()
                        .catalogue()
                        .finding("recent-surgery-dvt")
                        .orElseThrow()
                        .question())
                .contains("12 weeks"); // Wells 2003
        assertThat(Shipped.GERDY
                        .knowledge()
                        .catalogue()
                        .computed("calf-larger")
                        .orElseThrow()
                        .means())
                .hasToString("side-diff(calf-circumference)>=3"); // Wells 2003: at least 3 cm
    }

    @Test
    void aLowScoreStillSaysToday() {
        Patient low = Patient.aged(40).with("calf-swelling", "dvt-alternative-as-likely");
        assertThat(low.assessed()
                        .flag("deep-vein-thrombosis")
                        .highest()
                        .orElseThrow()
                        .action())
                .contains("even if the score is low"); // NICE NG158
    }

    @Test
    void aChildWhoWalksButHasFeverAndASwollenKneeIsStillAnEmergency() {
        Patient walks = Patient.aged(8)
                .with(
                        "systemic-symptoms",
                        "fever",
                        "four-steps-now: present",
                        "effusion-any",
                        "warmth-palpable: absent");
        assertThat(walks.urgency()).isEqualTo("emergency"); // Coakley 2006; Obey 2019
    }

    @Test
    void theSameIndexIsAbnormalForAnArteryAndNotBelowTheLimitForAnInjury() {
        Patient both = injured(60).with("ankle-brachial-index: 0.90");
        assertThat(both.row("arterial-insufficiency/index-or-cramp")).isEqualTo("raised"); // Gornik 2024
        assertThat(both.row("knee-dislocation/fresh-injury")).isNotEqualTo("raised"); // Mills 2004
    }

    @Test
    void painAndPainOnStretchRaiseTheCompartmentFlagBeforeAnyLateSign() {
        Patient late = Patient.aged(24).with("pain-out-of-proportion", "passive-stretch-pain");
        assertThat(late.flag("acute-compartment-syndrome"))
                .isEqualTo("raised emergency"); // BOAST: pain and stretch first
    }

    @Test
    void goutIsNeverScoredWhileInfectionIsRaised() {
        Patient hot = Patient.aged(58)
                .with(
                        "sex: male",
                        "acute-injury: absent",
                        "redness-joint",
                        "effusion-any",
                        "hot-swollen-days: 1",
                        "previous-joint-attack");
        assertThat(hot.flag("septic-joint")).isEqualTo("raised emergency"); // Coakley 2006
        assertThat(hot.score("gout-score")).isEqualTo("not-applicable");
    }

    @Test
    void anAbsentSignThatIsAbsentInManyTrueCasesNeverClearsTheFlag() {
        assertThat(Patient.aged(15).with("pain-rest-or-night: absent").flag("bone-tumour"))
                .isEqualTo("open"); // Pan 2010
        assertThat(Patient.aged(13)
                        .with("groin-pain: absent", "four-steps-now: present")
                        .flag("child-hip"))
                .isEqualTo("open"); // Green 2005
    }
}
