package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gerdy.rules.Totals.exactly;

import org.junit.jupiter.api.Test;

/** Bone: tumour, stress injury, low energy: check values with their sources. */
class BoneCheckValuesTest {
    @Test
    void boneAcheAtFifteenWithoutSwellingIsFilmedWithinFortyEightHours() {
        Patient young = Patient.aged(15).with("unexplained-bone-pain", "symptom-duration: 4", "mass-palpable: absent");
        assertThat(young.row("bone-tumour/young-person")).isEqualTo("raised"); // NICE NG12 (recalled)
        assertThat(young.assessed().flag("bone-tumour").highest().orElseThrow().within())
                .isEqualTo("48 hours");
    }

    @Test
    void sevenWeeksOfNightPainWithANormalKneeIsFilmedWithinTwoWeeks() {
        Patient adult = Patient.healthy(34).with("symptom-duration: 7", "pain-rest-or-night");
        assertThat(adult.flag("bone-tumour")).isEqualTo("raised urgent"); // Lothian bone pathway
    }

    @Test
    void aNormalFilmClosesNothing() {
        Patient normal =
                Patient.healthy(34).with("symptom-duration: 7", "pain-rest-or-night", "knee-film-report: normal");
        assertThat(normal.flag("bone-tumour")).isEqualTo("raised urgent"); // Lothian bone pathway
        assertThat(normal.assessed().flag("bone-tumour").highest().orElseThrow().action())
                .contains("if normal and pain persists, repeat or refer");
    }

    @Test
    void aFixedGrowingLumpOfFiveCentimetresIsUrgent() {
        Patient lump = Patient.aged(40).with("mass-palpable", "lump-size: 5", "lump-growing");
        assertThat(lump.row("soft-tissue-mass/large-or-growing"))
                .isEqualTo("raised"); // Scottish referral guideline 2025
        assertThat(Patient.aged(40).with("mass-palpable", "lump-size: 4.9").row("soft-tissue-mass/large-or-growing"))
                .isNotEqualTo("raised");
    }

    @Test
    void aSprainAtTwentyWithBonySwellingIsFilmedFirst() {
        Patient sprain = Patient.aged(20).with("acute-injury", "days-since-injury: 30", "mass-palpable");
        assertThat(sprain.row("bone-tumour/young-person")).isEqualTo("raised"); // Muscolo 2003; NICE NG12 (recalled)
    }

    @Test
    void nightPainIsNeverRequired() {
        Patient noNight = Patient.aged(16)
                .with(
                        "unexplained-bone-pain",
                        "pain-rest-or-night: absent",
                        "symptom-duration: 5",
                        "minor-trauma-history",
                        "acute-injury: absent");
        assertThat(noNight.flag("bone-tumour")).isEqualTo("raised urgent"); // Pan 2010: night pain in 37 %
    }

    private static Patient runner() {
        return Patient.aged(28)
                .with(
                        "focal-bony-tenderness: absent",
                        "prior-bsi: absent",
                        "pes-cavus: absent",
                        "gradual-onset-load-increase: absent",
                        "groin-pain: absent",
                        "thigh-pain: absent");
    }

    @Test
    void theWeightedRuleAddsThreeTwoTwoAndOne() {
        String rule = "bone-stress-score";
        assertThat(Totals.of(rule, runner().with("focal-bony-tenderness"))).isEqualTo(exactly(3)); // Nye 2020
        assertThat(Totals.of(rule, runner().with("prior-bsi", "gradual-onset-load-increase")))
                .isEqualTo(exactly(3)); // Nye 2020
        assertThat(Totals.of(rule, runner().with("prior-bsi"))).isEqualTo(exactly(2)); // Nye 2020
        assertThat(Totals.of(rule, runner().with("pes-cavus", "gradual-onset-load-increase")))
                .isEqualTo(exactly(3)); // Nye 2020
        assertThat(Totals.band(rule, runner().with("prior-bsi"))).startsWith("below the limit");
        assertThat(Totals.band(rule, runner().with("focal-bony-tenderness"))).isEqualTo("image");
    }

    @Test
    void theWeightedRuleRaisesWithoutTendernessFromThreePoints() {
        assertThat(runner().with("prior-bsi", "gradual-onset-load-increase")
                        .row("bone-stress-injury/weighted-rule-met"))
                .isEqualTo("raised"); // Nye 2020
        assertThat(runner().with("prior-bsi").row("bone-stress-injury/weighted-rule-met"))
                .isEqualTo("not-triggered");
    }

    @Test
    void groinPainTakesTheHipRouteAndNotTheWeightedRule() {
        Patient groin = runner().with("activity: running", "groin-pain", "gradual-onset-load-increase");
        assertThat(groin.score("bone-stress-score")).isEqualTo("not-applicable"); // Nye 2020: at or below the condyles
        assertThat(groin.flag("high-risk-bone-stress")).isEqualTo("raised urgent"); // Robertson 2017
    }

    @Test
    void twelveMissedCyclesAreSevereAndElevenAreNot() {
        Patient woman = Patient.aged(24)
                .with("sex: female", "low-energy-availability", "prior-bsi: absent", "focal-bony-tenderness: absent");
        assertThat(woman.with("missed-periods: 12").row("energy-deficiency/severe-or-with-bone-injury"))
                .isEqualTo("raised"); // Mountjoy 2023
        assertThat(woman.with("missed-periods: 11").flag("energy-deficiency"))
                .isEqualTo("raised routine-referral"); // Mountjoy 2023
    }
}
