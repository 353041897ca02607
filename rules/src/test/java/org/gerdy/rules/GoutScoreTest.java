package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gerdy.rules.Totals.exactly;

import org.gerdy.engine.logic.Points;
import org.junit.jupiter.api.Test;

/** The gout rule in its form for a knee (Janssens 2010): exact totals, and when it must not be run. */
class GoutScoreTest {
    private static final String SCORE = "gout-score";

    private static Patient answered(String sex) {
        return Patient.aged(55)
                .with(
                        "sex: " + sex,
                        "previous-joint-attack: absent",
                        "attack-peak-within-day: absent",
                        "redness-joint: absent",
                        "hypertension-or-cardiovascular: absent",
                        "serum-urate: 0.30");
    }

    private static Patient full() {
        return answered("male")
                .with(
                        "previous-joint-attack",
                        "attack-peak-within-day",
                        "redness-joint",
                        "hypertension-or-cardiovascular",
                        "serum-urate: 0.42");
    }

    @Test
    void everyItemAKneeCanHaveIsTenAndAHalf() {
        assertThat(Totals.of(SCORE, full())).isEqualTo(exactly(10.5)); // Janssens 2010: 13.0 less the toe's 2.5
        assertThat(full().score(SCORE)).isEqualTo("10.5 high");
    }

    @Test
    void withoutAUrateAKneeCannotBeHigh() {
        Patient man = full().without("serum-urate");
        assertThat(Totals.of(SCORE, man)).isEqualTo(new Points.Total(7.0, 10.5)); // Janssens 2010
        assertThat(Totals.band(SCORE, man)).isEqualTo("no-band");
        Patient woman = full().with("sex: female").without("serum-urate");
        assertThat(Totals.of(SCORE, woman).low()).isEqualTo(5.0); // Janssens 2010
    }

    @Test
    void highBloodPressureAloneIsOneAndAHalf() {
        Patient one = answered("female").with("hypertension-or-cardiovascular");
        assertThat(Totals.of(SCORE, one)).isEqualTo(exactly(1.5)); // Janssens 2010
        assertThat(Totals.band(SCORE, one)).isEqualTo("low");
    }

    @Test
    void exactlyFourIsStillLowAndFourAndAHalfIsNot() {
        Patient four = answered("male").with("previous-joint-attack");
        assertThat(Totals.of(SCORE, four)).isEqualTo(exactly(4.0)); // Janssens 2010
        assertThat(Totals.band(SCORE, four)).isEqualTo("low");
        Patient more = four.with("attack-peak-within-day");
        assertThat(Totals.of(SCORE, more)).isEqualTo(exactly(4.5)); // Janssens 2010
        assertThat(Totals.band(SCORE, more)).isEqualTo("intermediate");
    }

    @Test
    void theUrateItemIsStrictlyAboveItsLimit() {
        assertThat(Totals.of(SCORE, answered("female").with("serum-urate: 0.35")))
                .isEqualTo(exactly(0)); // Janssens 2010
        assertThat(Totals.of(SCORE, answered("female").with("serum-urate: 0.351")))
                .isEqualTo(exactly(3.5));
    }

    @Test
    void aHotKneeWithFeverIsAnEmergencyAndTheScoreIsNotRun() {
        Patient hot = full().with(
                        "acute-injury: absent",
                        "systemic-symptoms",
                        "fever",
                        "warmth-palpable",
                        "effusion-any",
                        "hot-swollen-days: 3");
        assertThat(hot.flag("septic-joint")).isEqualTo("raised emergency"); // Coakley 2006
        assertThat(hot.score(SCORE)).isEqualTo("not-applicable");
    }

    @Test
    void knownGoutDoesNotCoolAHotKnee() {
        Patient known = Patient.aged(58)
                .with(
                        "sex: male",
                        "acute-injury: absent",
                        "warmth-palpable",
                        "effusion-any",
                        "hot-swollen-days: 2",
                        "previous-joint-attack",
                        "serum-urate: 0.50");
        assertThat(known.flag("septic-joint")).isEqualTo("raised emergency"); // Coakley 2006; Couderc 2015
        assertThat(known.urgency()).isEqualTo("emergency"); // Coakley 2006
        assertThat(known.score(SCORE)).isEqualTo("not-applicable");
    }
}
