package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Joint infection, prostheses, and the child with fever: check values with their sources. */
class InfectionCheckValuesTest {
    private static Patient hot() {
        return Patient.aged(50).with("acute-injury: absent", "warmth-palpable", "effusion-any", "hot-swollen-days: 3");
    }

    @Test
    void aShortHotSwollenKneeWithoutFeverIsAnEmergency() {
        Patient noFever = hot().with("systemic-symptoms: absent", "fever: absent");
        assertThat(noFever.flag("septic-joint")).isEqualTo("raised emergency"); // Coakley 2006
        assertThat(noFever.assessed()
                        .flag("septic-joint")
                        .highest()
                        .orElseThrow()
                        .rationale())
                .contains("even without fever");
    }

    @Test
    void knownGoutAndWalkingChangeNothing() {
        Patient gout = hot().with("previous-joint-attack", "four-steps-now: present", "systemic-symptoms: absent");
        assertThat(gout.flag("septic-joint")).isEqualTo("raised emergency"); // Coakley 2006, Couderc 2015
    }

    @Test
    void newWarmthInAReplacedKneeIsTheSameDayWithoutANeedle() {
        Patient replaced = Patient.aged(67)
                .with("prior-knee-procedure", "knee-replacement", "warmth-palpable", "systemic-symptoms: absent");
        assertThat(replaced.flag("prosthetic-joint")).isEqualTo("raised same-day"); // Coakley 2006
        assertThat(replaced.assessed()
                        .flag("prosthetic-joint")
                        .highest()
                        .orElseThrow()
                        .action())
                .contains("no needle");
    }

    @Test
    void infectedSkinOverAReplacementIsAnEmergency() {
        Patient skin = Patient.aged(67).with("prior-knee-procedure", "knee-replacement", "skin-break-or-infection");
        assertThat(skin.flag("prosthetic-joint")).isEqualTo("raised emergency"); // Margaretten 2007
    }

    @Test
    void aChildWithFeverWhoWillNotWalkIsAnEmergencyWithoutAnyScore() {
        Patient child =
                Patient.aged(4).with("acute-injury: absent", "systemic-symptoms", "fever", "four-steps-now: absent");
        assertThat(child.flag("child-unwell-or-limping"))
                .isEqualTo("raised emergency"); // Obey 2019: knees are not hips
        assertThat(child.assessed().scores()).isEmpty();
    }

    @Test
    void aCoolKneeSwollenForSixWeeksLeavesTheInfectionRoute() {
        Patient cool = Patient.aged(40)
                .with(
                        "acute-injury: absent",
                        "effusion-any",
                        "warmth-palpable: absent",
                        "redness-joint: absent",
                        "hot-swollen-days: 43",
                        "severe-pain-all-motion: absent",
                        "systemic-symptoms: absent",
                        "tense-effusion: absent",
                        "immunosuppressed: absent",
                        "long-term-steroid: absent");
        assertThat(cool.flag("septic-joint")).isEqualTo("cleared"); // Coakley 2006: two weeks or less
        assertThat(cool.flag("inflammatory-arthritis")).isEqualTo("raised urgent"); // common practice, no source
    }

    @Test
    void fourteenDaysIsShortAndFifteenIsNot() {
        assertThat(hot().with("hot-swollen-days: 14").row("septic-joint/short-hot-swollen"))
                .isEqualTo("raised"); // Coakley 2006
        assertThat(hot().with("hot-swollen-days: 15").row("septic-joint/short-hot-swollen"))
                .isNotEqualTo("raised");
    }

    @Test
    void aFeverNobodyAskedAboutNeverCoolsTheKnee() {
        Patient asked = hot().with("hot-swollen-days: 20", "systemic-symptoms: absent");
        assertThat(asked.without("systemic-symptoms")
                        .assessed()
                        .flag("septic-joint")
                        .open())
                .isTrue();
    }

    @Test
    void immuneSuppressionHidesHeat() {
        Patient weak = Patient.aged(40).with("effusion-any", "warmth-palpable: absent", "immunosuppressed");
        assertThat(weak.flag("septic-joint")).isEqualTo("raised same-day"); // Earwood 2021
    }

    @Test
    void fiftyThousandCellsAreNotAboveTheLimit() {
        assertThat(Patient.aged(40).with("synovial-white-count: 50000").row("septic-joint/laboratory-signs"))
                .isEqualTo("cleared"); // Margaretten 2007 (recalled): over 50 000
        assertThat(Patient.aged(40).with("synovial-white-count: 50001").row("septic-joint/laboratory-signs"))
                .isEqualTo("raised");
    }
}
