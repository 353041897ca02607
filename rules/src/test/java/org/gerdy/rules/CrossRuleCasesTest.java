package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** One patient, several rules: cases that cross rules. */
class CrossRuleCasesTest {
    @Test
    void aRunnerWithoutInjuryOrFlagsIsOutsideBothRadiographRules() {
        Patient runner = Patient.healthy(28).with("symptom-duration: 6");
        assertThat(runner.decision("five-item-rule")).isEqualTo("not-applicable"); // Stiell 1995
        assertThat(runner.decision("fall-or-blow-rule")).isEqualTo("not-applicable"); // Seaberg 1994
        assertThat(runner.decisionRule("five-item-rule").means()).contains("not a negative rule");
        assertThat(runner.raised()).isEmpty();
    }

    @Test
    void aSkierSwollenWithinAnHourIsUrgentThoughTheFiveItemRuleIsNegative() {
        Patient skier = Patient.aged(41)
                .with(
                        "acute-injury",
                        "days-since-injury: 1",
                        "self-noticed-swelling",
                        "effusion-any",
                        "swelling-onset: within-2-hours",
                        "four-steps-now: present",
                        "four-steps-at-injury: present",
                        "knee-flexion: 95",
                        "tender-patella: absent",
                        "tender-fibular-head: absent",
                        "focal-bony-tenderness: absent",
                        "fracture-rule-excluded: absent");
        assertThat(skier.decision("five-item-rule")).isEqualTo("negative"); // Stiell 1995
        assertThat(skier.flag("rapid-haemarthrosis")).isEqualTo("raised urgent"); // Maffulli 1993
        assertThat(skier.urgency()).isEqualTo("urgent");
    }

    @Test
    void aFootballerWithAWeakAnkleIsADislocationFirstAndARadiographBeneath() {
        Patient footballer = Patient.aged(22)
                .with(
                        "acute-injury",
                        "days-since-injury: 0",
                        "hyperextension-injury",
                        "tender-fibular-head",
                        "dorsiflexion-weakness",
                        "dorsiflexion-grade: 2",
                        "foot-pulses-reduced: absent");
        assertThat(footballer.urgency()).isEqualTo("emergency");
        assertThat(footballer.assessed().raisedFlags().get(0).id()).isEqualTo("knee-dislocation"); // Boyce 2015
        assertThat(footballer.decision("five-item-rule")).isEqualTo("positive"); // Stiell 1995
    }

    @Test
    void aCyclistAfterSurgeryScoresThreeAndGoesTheSameDay() {
        Patient cyclist = Patient.aged(36)
                .with(
                        "calf-swelling",
                        "calf-circumference: {left: 38.2, right: 35.0}",
                        "pitting-oedema-one-leg",
                        "recent-surgery-dvt",
                        "active-cancer: absent",
                        "leg-paralysis-or-cast: absent",
                        "bedridden-3-days: absent",
                        "deep-vein-tenderness: absent",
                        "whole-leg-swollen: absent",
                        "collateral-veins: absent",
                        "previous-dvt: absent",
                        "dvt-alternative-as-likely: absent",
                        "anticoagulant: absent",
                        "chest-symptoms: absent");
        assertThat(cyclist.score("clot-score")).isEqualTo("3 likely"); // Wells 2003
        assertThat(cyclist.urgency()).isEqualTo("same-day"); // NICE NG158
    }

    @Test
    void aHeavyBoyWithAPainfulHipGoesTheHipRouteToday() {
        Patient boy = Patient.aged(13).with("sex: male", "symptom-duration: 5", "hip-ir-pain", "limp: absent");
        assertThat(boy.flag("child-hip")).isEqualTo("raised same-day"); // Matava 1999
        assertThat(boy.assessed().flag("child-hip").highest().orElseThrow().action())
                .contains("No weight bearing");
    }

    @Test
    void aWarmReplacedKneeGoesToTheSurgeonWithoutAGoutScore() {
        Patient woman = Patient.aged(67)
                .with(
                        "sex: female",
                        "prior-knee-procedure",
                        "knee-replacement",
                        "warmth-palpable",
                        "hypertension-or-cardiovascular");
        assertThat(woman.flag("prosthetic-joint")).isEqualTo("raised same-day"); // Coakley 2006
        assertThat(woman.score("gout-score")).isEqualTo("not-applicable");
    }

    @Test
    void aRowerWithoutPeriodsAndGroinPainIsAFemoralNeckToday() {
        Patient rower = Patient.aged(19)
                .with(
                        "sex: female",
                        "activity: swimming-rowing",
                        "low-energy-availability",
                        "missed-periods: 13",
                        "groin-pain",
                        "hop-test");
        assertThat(rower.flag("high-risk-bone-stress")).isEqualTo("raised same-day"); // Robertson 2017
        assertThat(rower.flag("energy-deficiency")).isEqualTo("raised urgent"); // Mountjoy 2023
    }

    @Test
    void sciaticaWithANumbSaddleIsAnEmergency() {
        Patient man = Patient.aged(45).with("back-pain", "pain-radiates-down-leg", "saddle-or-sphincter-change");
        assertThat(man.urgency()).isEqualTo("emergency"); // GIRFT 2023
        assertThat(man.assessed().raisedFlags().get(0).id()).isEqualTo("cauda-equina");
    }

    @Test
    void aKnockDoesNotExplainFiveWeeksOfBonePainAtSixteen() {
        Patient girl = Patient.aged(16)
                .with(
                        "sex: female",
                        "acute-injury",
                        "days-since-injury: 35",
                        "unexplained-bone-pain",
                        "symptom-duration: 5",
                        "mass-palpable: absent");
        assertThat(girl.flag("bone-tumour")).isEqualTo("raised urgent"); // NICE NG12 (recalled); Pan 2010
        assertThat(girl.assessed().flag("bone-tumour").highest().orElseThrow().within())
                .isEqualTo("48 hours");
    }
}
