package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gerdy.rules.Totals.exactly;

import org.gerdy.engine.logic.Points;
import org.junit.jupiter.api.Test;

/** The two-level clot score of 2003 (Wells 2003): exact totals, and what a low one does not permit. */
class ClotScoreTest {
    private static final String SCORE = "clot-score";

    /** A swollen calf, every item answered no, calves equal. */
    private static Patient swollen() {
        return Patient.aged(40)
                .with(
                        "calf-swelling",
                        "active-cancer: absent",
                        "leg-paralysis-or-cast: absent",
                        "bedridden-3-days: absent",
                        "recent-surgery-dvt: absent",
                        "deep-vein-tenderness: absent",
                        "whole-leg-swollen: absent",
                        "calf-circumference: {left: 35, right: 35}",
                        "pitting-oedema-one-leg: absent",
                        "collateral-veins: absent",
                        "previous-dvt: absent",
                        "dvt-alternative-as-likely: absent");
    }

    private static void scores(Patient patient, double total, String band) {
        assertThat(Totals.of(SCORE, patient)).isEqualTo(exactly(total));
        assertThat(Totals.band(SCORE, patient)).isEqualTo(band);
        assertThat(patient.flag("deep-vein-thrombosis")).isEqualTo("raised same-day");
    }

    @Test
    void anotherDiagnosisAloneIsMinusTwo() {
        scores(swollen().with("dvt-alternative-as-likely"), -2, "unlikely"); // Wells 2003
    }

    @Test
    void threeCentimetresAndPittingAreTwoAndLikely() {
        scores(
                swollen().with("calf-circumference: {left: 38.0, right: 35.0}", "pitting-oedema-one-leg"),
                2,
                "likely"); // Wells 2003
    }

    @Test
    void twoPointNineIsNotThree() {
        scores(
                swollen().with("calf-circumference: {left: 37.9, right: 35.0}", "pitting-oedema-one-leg"),
                1,
                "unlikely"); // Wells 2003
    }

    @Test
    void twoPointNineSixIsNotRoundedUp() {
        scores(
                swollen().with("calf-circumference: {left: 37.96, right: 35.0}", "pitting-oedema-one-leg"),
                1,
                "unlikely"); // Wells 2003
    }

    @Test
    void surgerySixWeeksAgoCountsInTheWordingOf2003() {
        scores(
                swollen().with("recent-surgery-dvt", "deep-vein-tenderness", "dvt-alternative-as-likely"),
                0,
                "unlikely"); // Wells 2003: 12 weeks
        scores(swollen().with("recent-surgery-dvt", "whole-leg-swollen"), 2, "likely"); // Wells 2003
    }

    @Test
    void bedRestAndSurgeryAreOneItem() {
        scores(swollen().with("recent-surgery-dvt", "bedridden-3-days"), 1, "unlikely"); // Wells 2003
    }

    @Test
    void anEarlierClotCounts() {
        scores(
                swollen().with("previous-dvt", "calf-circumference: {left: 38.5, right: 35}"),
                2,
                "likely"); // Wells 2003
    }

    @Test
    void cancerWholeLegCalfAndPittingAreFour() {
        scores(
                swollen()
                        .with(
                                "active-cancer",
                                "whole-leg-swollen",
                                "calf-circumference: {left: 39, right: 35}",
                                "pitting-oedema-one-leg"),
                4,
                "likely"); // Wells 2003
    }

    @Test
    void allNineWithoutAnAlternativeAreNine() {
        scores(
                swollen()
                        .with(
                                "active-cancer",
                                "leg-paralysis-or-cast",
                                "bedridden-3-days",
                                "deep-vein-tenderness",
                                "whole-leg-swollen",
                                "calf-circumference: {left: 39, right: 35}",
                                "pitting-oedema-one-leg",
                                "collateral-veins",
                                "previous-dvt"),
                9,
                "likely"); // Wells 2003
    }

    @Test
    void exactlyOneIsUnlikely() {
        scores(swollen().with("active-cancer"), 1, "unlikely"); // Wells 2003
    }

    @Test
    void inPregnancyTheScoreIsNotApplicableAndTheLegIsStillTheSameDay() {
        Patient pregnant = swollen().with("sex: female", "pregnancy-status: pregnant", "whole-leg-swollen");
        assertThat(pregnant.score(SCORE)).isEqualTo("not-applicable"); // RCOG 37b
        assertThat(pregnant.row("deep-vein-thrombosis/pregnant-or-recent-birth"))
                .isEqualTo("raised");
        assertThat(pregnant.flag("deep-vein-thrombosis")).isEqualTo("raised same-day");
    }

    @Test
    void itemsUnansweredLeaveARangeAndNoBand() {
        Patient few = Patient.aged(40)
                .with(
                        "calf-swelling",
                        "active-cancer: absent",
                        "leg-paralysis-or-cast: absent",
                        "whole-leg-swollen: absent",
                        "previous-dvt: absent",
                        "pitting-oedema-one-leg: absent");
        assertThat(Totals.of(SCORE, few)).isEqualTo(new Points.Total(-2, 4));
        assertThat(Totals.band(SCORE, few)).isEqualTo("no-band");
        assertThat(few.row("deep-vein-thrombosis/clot-score-likely")).isEqualTo("open");
    }

    @Test
    void theAlternativeLeftBlankIsNeverTakenForYesOrNo() {
        Patient blank =
                swollen().with("calf-circumference: {left: 38, right: 35}").without("dvt-alternative-as-likely");
        assertThat(Totals.of(SCORE, blank)).isEqualTo(new Points.Total(-1, 1));
        assertThat(Totals.band(SCORE, blank)).isEqualTo("unlikely");
        assertThat(blank.urgency()).isEqualTo("same-day"); // NICE NG158: a low score still needs the blood test today
    }

    @Test
    void noPointIsTakenOffForAnAlternativeNobodyWasAskedAbout() {
        Patient calm = Patient.aged(40)
                .with("calf-swelling: absent", "active-cancer: absent", "pitting-oedema-one-leg", "collateral-veins");
        assertThat(Totals.of(SCORE, calm)).isEqualTo(exactly(2)); // Wells 2003: the clinician's own judgement
    }

    @Test
    void chestSymptomsAreAnEmergencyAndEndTheScoring() {
        Patient chest = swollen().with("chest-symptoms", "whole-leg-swollen");
        assertThat(chest.flag("pulmonary-embolism")).isEqualTo("raised emergency");
        assertThat(chest.score(SCORE)).isEqualTo("not-applicable"); // exclusions (recalled)
    }
}
