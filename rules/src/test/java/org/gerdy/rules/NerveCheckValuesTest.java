package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Nerve, spine and regional pain: check values with their sources. */
class NerveCheckValuesTest {
    @Test
    void footDropWithoutInjuryIsTheSameDay() {
        Patient drop = Patient.aged(40)
                .with(
                        "acute-injury: absent",
                        "dorsiflexion-weakness",
                        "dorsiflexion-grade: 2",
                        "inversion-weakness: absent");
        assertThat(drop.flag("fibular-nerve-palsy")).isEqualTo("raised same-day"); // Lothian spinal pathway
    }

    @Test
    void footDropAfterATwistIsAnEmergency() {
        Patient drop = Patient.aged(40)
                .with("acute-injury", "days-since-injury: 1", "dorsiflexion-weakness", "dorsiflexion-grade: 2");
        assertThat(drop.flag("fibular-nerve-palsy")).isEqualTo("raised emergency"); // Niall 2005
        assertThat(drop.flag("knee-dislocation")).isEqualTo("raised emergency"); // Boyce 2015
    }

    @Test
    void gradeThreeIsDropAndGradeFourStableIsUrgent() {
        Patient weak = Patient.aged(40).with("acute-injury: absent", "dorsiflexion-weakness", "weakness-trend: steady");
        assertThat(weak.with("dorsiflexion-grade: 3").flag("fibular-nerve-palsy"))
                .isEqualTo("raised same-day"); // Lothian spinal pathway: 3 or less
        assertThat(weak.with("dorsiflexion-grade: 4").flag("fibular-nerve-palsy"))
                .isEqualTo("raised urgent"); // common practice, no source
    }

    @Test
    void aRootPatternOfGradeThreeIsTheSameDay() {
        Patient root = Patient.aged(40)
                .with(
                        "acute-injury: absent",
                        "leg-neuro-symptoms",
                        "dorsiflexion-weakness",
                        "dorsiflexion-grade: 3",
                        "inversion-weakness",
                        "leg-power-lowest-grade: 3");
        assertThat(root.flag("progressive-radiculopathy")).isEqualTo("raised same-day"); // Lothian spinal pathway
    }

    @Test
    void aNumbSaddleIsAnEmergencyAndNothingElseIsNeeded() {
        Patient saddle = Patient.aged(45).with("saddle-or-sphincter-change");
        assertThat(saddle.flag("cauda-equina")).isEqualTo("raised emergency"); // GIRFT 2023
        assertThat(saddle.urgency()).isEqualTo("emergency");
    }

    @Test
    void aSaddleNobodyAskedAboutKeepsTheFlagOpen() {
        Patient unasked = Patient.healthy(35).without("saddle-or-sphincter-change");
        assertThat(unasked.flag("cauda-equina")).isEqualTo("open"); // Dionne 2019: not volunteered
        assertThat(unasked.urgency()).isEqualTo("none");
    }

    private static Patient regional() {
        return Patient.aged(40)
                .with(
                        "pain-out-of-proportion",
                        "disproportionate-pain-colour-change",
                        "crps-symptom-groups: 3",
                        "crps-sign-groups: 2",
                        "crps-better-explanation: absent");
    }

    @Test
    void threeSymptomGroupsAndTwoSignGroupsMeetTheCriteria() {
        assertThat(regional().decision("regional-pain-criteria")).isEqualTo("positive"); // Harden 2010
        assertThat(regional().row("crps/criteria-met")).isEqualTo("raised");
    }

    @Test
    void fourSymptomGroupsDoNotStandForASign() {
        Patient one = regional().with("crps-symptom-groups: 4", "crps-sign-groups: 1");
        assertThat(one.decision("regional-pain-criteria")).isEqualTo("negative"); // Harden 2010
    }

    @Test
    void whileSomethingElseMayExplainItTheCriteriaAreNotMet() {
        assertThat(regional().with("crps-better-explanation").decision("regional-pain-criteria"))
                .isEqualTo("negative"); // Harden 2010, fourth criterion
        assertThat(regional().without("crps-better-explanation").decision("regional-pain-criteria"))
                .isEqualTo("incomplete");
    }
}
