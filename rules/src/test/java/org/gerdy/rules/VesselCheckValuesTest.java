package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Dislocation, vessels and compartments: check values with their sources. */
class VesselCheckValuesTest {
    private static Patient injured() {
        return Patient.aged(30).with("acute-injury", "days-since-injury: 0");
    }

    @Test
    void twoLaxLigamentsAreADislocationWhateverThePulses() {
        Patient lax =
                injured().with("hyperextension-injury", "lachman", "posterior-drawer", "foot-pulses-reduced: absent");
        assertThat(lax.flag("knee-dislocation"))
                .isEqualTo("raised emergency"); // Barnes 2002: one artery in five missed
    }

    @Test
    void anIndexOfPointEightNineEightIsBelowPointNine() {
        assertThat(injured().with("ankle-brachial-index: 0.898").flag("knee-dislocation"))
                .isEqualTo("raised emergency"); // Mills 2004: below 0.90, unrounded
        assertThat(injured().with("ankle-brachial-index: 0.90").row("knee-dislocation/fresh-injury"))
                .isEqualTo("open"); // Mills 2004: 0.90 is not below
    }

    @Test
    void aGoodIndexAndPulsesDoNotEndTheRouteOfALaxKnee() {
        Patient good = injured()
                .with("lachman", "varus-laxity-30", "ankle-brachial-index: 0.92", "foot-pulses-reduced: absent");
        assertThat(good.flag("knee-dislocation")).isEqualTo("raised emergency"); // Boyce 2015: observe in hospital
    }

    @Test
    void aColdFootAfterAViolentInjuryNeedsNoIndex() {
        Patient cold = injured().with("high-energy-injury", "foot-cold-pale");
        assertThat(cold.flag("knee-dislocation")).isEqualTo("raised emergency"); // Boyce 2015
        assertThat(cold.flag("acute-limb-ischaemia")).isEqualTo("raised emergency"); // RCEM 2022
    }

    @Test
    void normalPulsesNeverClearADislocationByThemselves() {
        Patient pulses = injured().with("foot-pulses-reduced: absent", "foot-cold-pale: absent");
        assertThat(pulses.row("knee-dislocation/fresh-injury")).isEqualTo("open"); // Barnes 2002
    }

    @Test
    void painOnPassiveStretchAfterFootballWithoutABlowIsAnEmergency() {
        Patient lateral = Patient.aged(24)
                .with(
                        "acute-injury: absent",
                        "unaccustomed-exertion",
                        "pain-out-of-proportion",
                        "pain-worst-24h: 8",
                        "passive-stretch-pain",
                        "foot-pulses-reduced: absent");
        assertThat(lateral.flag("acute-compartment-syndrome")).isEqualTo("raised emergency"); // Alrayes 2023
    }

    @Test
    void aMildAcheAfterFootballRaisesNoCompartmentFlag() {
        Patient mild = Patient.aged(24).with("pain-out-of-proportion: absent", "passive-stretch-pain: absent");
        assertThat(mild.flag("acute-compartment-syndrome")).isEqualTo("cleared"); // Ulmer 2002
    }

    @Test
    void aStretchNobodyTestedKeepsTheFlagOpenToAnEmergency() {
        Patient untested = Patient.aged(24)
                .with("pain-out-of-proportion", "unaccustomed-exertion", "acute-injury: absent", "pain-worst-24h: 6");
        assertThat(untested.row("acute-compartment-syndrome/stretch-pain")).isEqualTo("open"); // BOAST
        assertThat(untested.assessed().couldBecome()).hasToString("Optional[EMERGENCY]");
    }

    @Test
    void pointNineIsAbnormalForTheArteryAndNotBelowForTheInjury() {
        Patient cramp = Patient.aged(60).with("pain-after-minutes-stops-within-minutes", "ankle-brachial-index: 0.90");
        assertThat(cramp.row("arterial-insufficiency/index-or-cramp")).isEqualTo("raised"); // Gornik 2024: 0.90 or less
        assertThat(injured().with("ankle-brachial-index: 0.90").row("knee-dislocation/fresh-injury"))
                .isNotEqualTo("raised"); // Mills 2004: below 0.90
    }

    @Test
    void anIndexOfOnePointFourEightIsNotCompressibleAndNeverNormal() {
        Patient stiff = Patient.aged(70).with("ankle-brachial-index: 1.48");
        assertThat(stiff.row("arterial-insufficiency/index-or-cramp")).isEqualTo("raised"); // Gornik 2024: over 1.40
        assertThat(Patient.aged(70).with("ankle-brachial-index: 1.40").row("arterial-insufficiency/index-or-cramp"))
                .isNotEqualTo("raised");
    }

    @Test
    void aSuddenlyColdFootIsAnEmergencyWithoutAnInjury() {
        Patient cold = Patient.aged(70).with("acute-injury: absent", "foot-cold-pale", "leg-neuro-symptoms");
        assertThat(cold.flag("acute-limb-ischaemia")).isEqualTo("raised emergency"); // RCEM 2022
    }

    @Test
    void aPulseLostOnPointingTheFootAfterACrampIsUrgent() {
        Patient young =
                Patient.aged(22).with("pain-after-minutes-stops-within-minutes", "absent-pulses-plantarflexion");
        assertThat(young.flag("popliteal-artery-entrapment")).isEqualTo("raised urgent"); // Hislop 2014
    }
}
