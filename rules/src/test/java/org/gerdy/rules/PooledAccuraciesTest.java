package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.gerdy.engine.fact.EvidenceRow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Pooled figures of meta-analyses are carried as printed and never worked out again. */
class PooledAccuraciesTest {
    @ParameterizedTest(name = "{0} for {1}: {2} ({3} to {4})")
    @CsvSource({
        // Sims 2020, pooled adults, 7385 people in 8 studies: LR+ 1.86 (1.72 to 2.01), LR- 0.07 (0.02 to 0.24).
        "ottawa-any, acute-fracture, 1.86, 1.72, 2.01, sims2020",
        "ottawa-rule-negative, acute-fracture, 0.07, 0.02, 0.24, sims2020"
    })
    void aPooledRatioHasItsPublishedBounds(
            String finding, String condition, double value, double low, double high, String source) {
        EvidenceRow row = evidence(finding, condition);
        assertThat(row.whenPresent()).contains(new EvidenceRow.Ratio(value, low, high));
        assertThat(row.sources()).contains(source);
        assertThat(row.origin()).isEqualTo("published-pooled");
    }

    @ParameterizedTest(name = "{0} for {1}: {2}")
    @CsvSource({
        // Goodacre 2005, pooled over clot studies: strata high 5.2 and low 0.25; single features.
        "wells-high, deep-vein-thrombosis, 5.2, goodacre2005",
        "wells-low, deep-vein-thrombosis, 0.25, goodacre2005",
        "active-cancer-with-swollen-calf, deep-vein-thrombosis, 2.71, goodacre2005",
        "previous-dvt, deep-vein-thrombosis, 2.25, goodacre2005",
        "recent-immobilisation, deep-vein-thrombosis, 1.98, goodacre2005",
        "recent-surgery-dvt, deep-vein-thrombosis, 1.76, goodacre2005",
        "calf-circumference-3cm, deep-vein-thrombosis, 1.8, goodacre2005",
        // Margaretten 2007, joint fluid (recalled).
        "synovial-wbc-over-50k, septic-arthritis, 7.7, margaretten2007",
        "synovial-wbc-under-25k, septic-arthritis, 0.32, margaretten2007"
    })
    void aPooledRatioIsPrintedAsPublished(String finding, String condition, double value, String source) {
        EvidenceRow row = evidence(finding, condition);
        assertThat(row.whenPresent().orElseThrow().value()).isEqualTo(value);
        assertThat(row.sources()).contains(source);
        assertThat(row.origin()).isEqualTo("published-pooled");
    }

    @ParameterizedTest(name = "{0}: sensitivity {1}, specificity {2}")
    @CsvSource({
        // Sokal 2022, pooled: tests for the anterior cruciate ligament.
        "lachman, 0.81, 0.85",
        "anterior-drawer, 0.83, 0.85",
        "pivot-shift, 0.55, 0.94",
        "lever-sign, 0.83, 0.91"
    })
    void theLigamentTestsCarryTheirPooledAccuracy(String finding, double sensitivity, double specificity) {
        EvidenceRow row = evidence(finding, "acl-rupture");
        assertThat(row.whenPresent().orElseThrow().value())
                .isCloseTo(sensitivity / (1 - specificity), within(0.01 * sensitivity / (1 - specificity)));
        assertThat(row.whenAbsent().orElseThrow().value()).isCloseTo((1 - sensitivity) / specificity, within(0.01));
        assertThat(row.sources()).contains("sokal2022");
    }

    @ParameterizedTest(name = "{0} holds {1} {2}")
    @CsvSource({
        // Bachmann 2004, pooled over 6 studies: LR- 0.05 (0.02 to 0.23), which 0.985 and 0.486 do not give.
        "ottawa-any--acute-fracture--bachmann2004, lr_neg, 0.05",
        "ottawa-any--acute-fracture--bachmann2004, lr_neg_high, 0.23",
        // Hegedus 2007, pooled: McMurray 0.71 and 0.71, joint line 0.63 and 0.77.
        "mcmurray-lateral--lateral-meniscal-tear-traumatic--hegedus2007, sensitivity, 0.71",
        "mcmurray-lateral--lateral-meniscal-tear-traumatic--hegedus2007, specificity, 0.71",
        "tender-lateral-joint-line--lateral-meniscal-tear-traumatic--hegedus2007, sensitivity, 0.63",
        // Smith 2015, pooled: McMurray 0.61 and 0.84.
        "mcmurray-lateral--lateral-meniscal-tear-traumatic--smith2015-5, sensitivity, 0.61",
        "mcmurray-lateral--lateral-meniscal-tear-traumatic--smith2015-5, specificity, 0.84",
        // Benjaminse 2006, pooled: Lachman 0.85 and 0.94.
        "lachman--acl-rupture--benjaminse2006, sensitivity, 0.85",
        "lachman--acl-rupture--benjaminse2006, specificity, 0.94",
        // Decary 2017, pooled: Lachman LR+ 10.2, LR- 0.2.
        "lachman--acl-rupture--decary2017, lr_pos, 10.2",
        "lachman--acl-rupture--decary2017, lr_neg, 0.2"
    })
    void aRivalStudyIsKeptWithItsOwnFigures(String id, String column, double value) {
        Map<String, String> row = Shipped.table("accuracy-studies.csv").stream()
                .filter(one -> one.get("id").equals(id))
                .findFirst()
                .orElseThrow();
        assertThat(Double.parseDouble(row.get(column))).isEqualTo(value);
    }

    @Test
    void rivalStudiesOfOneFindingGiveOneRowAndAreNeverMultiplied() {
        List<String> pairs = Shipped.GERDY.knowledge().evidence().rows().stream()
                .map(row -> row.finding() + "/" + row.condition())
                .toList();
        assertThat(pairs).doesNotHaveDuplicates();
    }

    private static EvidenceRow evidence(String finding, String condition) {
        return Shipped.GERDY.knowledge().evidence().about(condition).stream()
                .filter(row -> row.finding().equals(finding))
                .findFirst()
                .orElseThrow();
    }
}
