package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Injuries the radiograph rules do not settle: flakes, weak bone, the extensor mechanism, the locked and the bleeding knee. */
class InjuryCheckValuesTest {
    private static Patient injured(int age) {
        return Patient.aged(age).with("acute-injury", "days-since-injury: 1");
    }

    @Test
    void aLateralTibialFlakeIsAPresumedCruciateRupture() {
        Patient flake = injured(28).with("knee-film-report: lateral-tibial-flake");
        assertThat(flake.flag("fracture-on-film")).isEqualTo("raised urgent"); // Goldman 1988
        assertThat(flake.assessed()
                        .flag("fracture-on-film")
                        .highest()
                        .orElseThrow()
                        .action())
                .contains("presumed anterior cruciate rupture");
    }

    @Test
    void aNormalFilmAfterAPivotReassuresNobodyAboutTheCruciate() {
        Patient pivot = injured(28).with("knee-film-report: normal", "twisting-injury");
        assertThat(pivot.flag("ligament-rupture")).isEqualTo("open"); // Hess 1994: a flake in only 9 % of ruptures
    }

    @Test
    void hyperextensionWithATenderFibulaAndAWeakAnkleIsADislocationUntilShownOtherwise() {
        Patient hurt = injured(22)
                .with("hyperextension-injury", "tender-fibular-head", "dorsiflexion-weakness", "dorsiflexion-grade: 3");
        assertThat(hurt.flag("knee-dislocation")).isEqualTo("raised emergency"); // Boyce 2015, Moatshe 2024
    }

    @Test
    void thighAcheOnABoneDrugIsFilmedWithoutAnyInjury() {
        Patient ache = Patient.aged(72)
                .with(
                        "acute-injury: absent",
                        "bone-health-risk",
                        "antiresorptive-drug",
                        "thigh-pain",
                        "symptom-duration: 6");
        assertThat(ache.flag("atypical-femoral-fracture")).isEqualTo("raised urgent"); // Shane 2014
    }

    @Test
    void suddenPainOnStandingAtFiftyEightIsAnInsufficiencyFractureQuestion() {
        Patient sudden =
                Patient.aged(58).with("acute-injury: absent", "onset-type: sudden-no-injury", "pain-on-weight-bearing");
        assertThat(sudden.decision("five-item-rule")).isEqualTo("not-applicable"); // Stiell 1995: acute injury
        assertThat(sudden.flag("subchondral-insufficiency")).isEqualTo("raised urgent"); // Huizinga 2020
    }

    @Test
    void aPopAndALostLegRaiseIsTheSameDay() {
        Patient lost = injured(48).with("pop-at-injury", "active-straight-leg-raise: absent");
        assertThat(lost.flag("extensor-mechanism")).isEqualTo("raised same-day"); // Rougraff 1996
    }

    @Test
    void aLostLegRaiseAfterAFallAtEightyIsExtensorAndHip() {
        Patient fell = injured(80).with("fall-standing-height", "active-straight-leg-raise: absent", "hip-ir-pain");
        assertThat(fell.raised()).contains("extensor-mechanism", "hip-fracture"); // Rougraff 1996; Hak 2009
    }

    @Test
    void theHealthyLegsRaiseDoesNotClearThePainfulLeg() {
        Patient other = injured(48).with("active-straight-leg-raise: {right: present}");
        assertThat(other.row("extensor-mechanism/lost-leg-raise-or-gap")).isEqualTo("open");
    }

    @Test
    void aBlockToExtensionSinceATwistIsUrgent() {
        Patient locked = injured(25).with("extension-block");
        assertThat(locked.flag("locked-knee")).isEqualTo("raised urgent"); // Academy of Medical Royal Colleges guidance
    }

    @Test
    void monthsOfCatchingWithFullExtensionAreNoLock() {
        Patient catching =
                Patient.aged(45).with("catching", "extension-block: absent", "symptom-duration: 26", "locking: absent");
        assertThat(catching.flag("locked-knee")).isEqualTo("cleared");
    }

    @Test
    void swellingWithinTwoHoursIsTakenForABleed() {
        Patient bleed = injured(25).with("self-noticed-swelling", "effusion-any", "swelling-onset: within-2-hours");
        assertThat(bleed.flag("rapid-haemarthrosis")).isEqualTo("raised urgent"); // Maffulli 1993
    }

    @Test
    void swellingTheNextMorningClaimsNoBleed() {
        Patient late = injured(25)
                .with(
                        "self-noticed-swelling",
                        "effusion-any",
                        "swelling-onset: within-6-to-24-hours",
                        "anticoagulant: absent");
        assertThat(late.row("rapid-haemarthrosis/swelling-within-hours"))
                .isEqualTo("cleared"); // common practice, no source
    }

    @Test
    void swellingOfUnknownTimeIsTreatedAsABleed() {
        Patient unknown = injured(25).with("self-noticed-swelling", "effusion-any", "swelling-onset: unknown");
        assertThat(unknown.flag("rapid-haemarthrosis"))
                .isEqualTo("raised urgent"); // judgement: unknown is not reassuring
    }

    @Test
    void aHotSwellingOfFourDaysWithoutInjuryGoesTheInfectionRoute() {
        Patient hot =
                Patient.aged(50).with("acute-injury: absent", "warmth-palpable", "effusion-any", "hot-swollen-days: 4");
        assertThat(hot.flag("septic-joint")).isEqualTo("raised emergency"); // Coakley 2006
        assertThat(hot.raised()).doesNotContain("rapid-haemarthrosis");
    }

    @Test
    void aPreviousInjuryOfTheOtherLegDoesNotHideThisOne() {
        Patient both = injured(30).side("both").with("knee-flexion: {left: 130, right: 80}");
        assertThat(both.row("possible-fracture/five-item-rule")).isEqualTo("raised"); // Stiell 1995: either knee
    }
}
