package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Children and adolescents: check values with their sources. */
class ChildCheckValuesTest {
    private static Patient twelve() {
        return Patient.aged(12).with("acute-injury: absent", "symptom-duration: 3");
    }

    @Test
    void aLimitedHipBehindAKneeAcheIsTheSameDay() {
        assertThat(twelve().with("hip-ir-limited", "limp: absent").flag("child-hip"))
                .isEqualTo("raised same-day"); // Cornwall limp guideline; Matava 1999
    }

    @Test
    void aChildWhoCannotWalkIsAnEmergency() {
        assertThat(twelve().with("four-steps-now: absent").flag("child-hip"))
                .isEqualTo("raised emergency"); // Loder 1993 (recalled)
    }

    @Test
    void aFreeHipWithoutALimpIsCleared() {
        Patient free = twelve().with(
                        "hip-ir-limited: absent",
                        "hip-ir-pain: absent",
                        "obligate-external-rotation: absent",
                        "leg-turned-out: absent",
                        "limp: absent",
                        "four-steps-now: present",
                        "groin-pain: absent");
        assertThat(free.flag("child-hip")).isEqualTo("cleared"); // Cornwall limp guideline
    }

    @Test
    void aHipNotExaminedKeepsTheScreenOpen() {
        Patient unexamined = twelve().with("four-steps-now: present", "groin-pain: absent", "limp: absent");
        assertThat(unexamined.flag("child-hip")).isEqualTo("open"); // Perry 2018
        assertThat(unexamined.urgency()).isEqualTo("none");
    }

    @Test
    void aPainlessLimpWithLessAbductionAtSevenIsUrgent() {
        Patient seven = Patient.aged(7)
                .with("acute-injury: absent", "limp", "symptom-duration: 10 days", "hip-abduction-limited");
        assertThat(seven.flag("child-hip")).isEqualTo("raised urgent"); // paediatric emergency medicine text
    }

    @Test
    void aBabyWithPainAndAVagueStoryIsASafeguardingConcernToday() {
        Patient baby = Patient.aged(0).with("acute-injury: absent", "safeguarding-concern");
        assertThat(baby.flag("safeguarding")).isEqualTo("raised same-day"); // NICE CG89
    }

    @Test
    void aHipInTheAgeOfSlipsNeedsNoHipPain() {
        Patient noHipPain = twelve().with("groin-pain: absent", "thigh-pain: absent", "hip-ir-pain", "limp: absent");
        assertThat(noHipPain.flag("child-hip")).isEqualTo("raised same-day"); // Green 2005: hip or groin pain in 60 %
    }
}
