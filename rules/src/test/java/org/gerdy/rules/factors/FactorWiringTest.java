package org.gerdy.rules.factors;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.KnowledgeLoader;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;

class FactorWiringTest {
    private static final Gerdy GERDY = LateralKnee.gerdy();
    private static final Path CASES = Path.of(System.getProperty("gerdy.root"), "cases", "demo");

    private static CaseFile read(String visits) throws MendableException {
        String text = "gerdy: 1\ncase: wired\npatient: {age: 34, sex: female, mass: 61 kg, height: 168 cm}\nvisits:\n"
                + visits;
        return GERDY.read("case.yaml", new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    }

    private static FactorResult factor(Assessment assessment, String id) {
        return assessment.factors().stream()
                .filter(one -> one.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theSpikeInTheDemoDiaryIsFound() throws MendableException {
        Assessment assessment = GERDY.assess(GERDY.read(CASES.resolve("first-visit.yaml")));
        FactorResult spike = factor(assessment, "session-spike");
        assertThat(spike.verdict()).isEqualTo(FactorVerdict.CONTRIBUTES);
        // By hand from the diary: 18.3 km after a longest of 11.2 km, (18.3 - 11.2) / 11.2 = 63.39 %
        assertThat(spike.value().orElseThrow()).isBetween(63.39, 63.40);
        assertThat(assessment.load().orElseThrow().end()).isEqualTo(LocalDate.of(2026, 8, 8));
        assertThat(AssessmentJson.line(assessment))
                .contains(
                        "{\"id\":\"session-spike\"",
                        "\"verdict\":\"contributes\",\"value\":63.3929,\"unit\":\"percent\"");
    }

    @Test
    void aCaseWithoutMeasuresAndRunsNamesEveryFactorAndContributesNothing() throws MendableException {
        Assessment assessment = GERDY.assess(read("  - {date: 2026-03-02, side: left}\n"));
        assertThat(assessment.factors())
                .hasSize(GERDY.knowledge().factors().factors().size());
        assertThat(assessment.factors(FactorVerdict.CONTRIBUTES)).isEmpty();
        assertThat(assessment.load()).isEmpty();
    }

    @Test
    void everyReasonOfAVerdictNamesARowThatIsThere() throws MendableException {
        Assessment assessment = GERDY.assess(GERDY.read(CASES.resolve("first-visit.yaml")));
        assertThat(assessment.factors())
                .allSatisfy(factor -> assertThat(factor.reasons()).isNotEmpty().allSatisfy(reason -> {
                    String id = reason.rule().substring(reason.rule().indexOf(':') + 1);
                    assertThat(GERDY.knowledge().factors().norms().containsKey(id)
                                    || GERDY.knowledge().factors().errors().containsKey(id)
                                    || factor.id().equals(id))
                            .isTrue();
                    assertThat(GERDY.knowledge().bibliography().keySet()).containsAll(reason.sources());
                }));
    }

    @Test
    void aMeasureRepeatedOnAnotherDayNarrowsTheError() throws MendableException {
        String measures = "measures: {hip-abduction-strength: {left: 110 N, right: 150 N}}";
        CaseFile twice = read("  - {date: 2026-03-02, side: left, " + measures
                + "}\n  - {date: 2026-03-09, side: left, " + measures + "}\n");
        FactorResult once = factor(GERDY.assess(twice, twice.visits().get(0)), "hip-abductor-strength");
        FactorResult again = factor(GERDY.assess(twice), "hip-abductor-strength");
        // Deficit 26.7 %: inside 27 points on one day, beyond 27 / sqrt(2) = 19.1 and 25 on two.
        assertThat(once.verdict()).isEqualTo(FactorVerdict.BORDERLINE);
        assertThat(again.verdict()).isEqualTo(FactorVerdict.CONTRIBUTES);
    }

    @Test
    void unitMistakesAreToldAtLineAndColumn() {
        assertThatThrownBy(() -> read("""
                          - date: 2026-03-02
                            side: left
                            measures:
                              hip-abduction-strength: {left: 12, right: 15 kgf}
                              leg-length-blocks: {left: 12 kg, right: 0 mm}
                              step-rat: 164
                        """))
                .isInstanceOf(MendableException.class)
                .hasMessageContaining("case.yaml:8:38: '12' has no unit; write N or kgf or lbf behind it.")
                .hasMessageContaining("case.yaml:9:33: '12 kg': 'leg-length-blocks' is not taken in 'kg'")
                .hasMessageContaining("case.yaml:10:7: There is no measure 'step-rat'; did you mean 'step-rate'?");
    }

    @Test
    void aMeasureThatAlsoStandsAmongTheFindingsIsToldWhenTheTwoDifferAndTheFindingIsUsed() throws MendableException {
        String both = """
                          - date: 2026-03-02
                            side: left
                            findings: {step-rate: 170}
                            measures: {step-rate: 160}
                        """;
        String told = "'step-rate' is 170 among the findings and 160 steps/min by its measure; the finding is used,"
                + " look at both again.";
        Assessment assessment = GERDY.assess(read(both));
        assertThat(assessment.clashes()).containsExactly(told);
        assertThat(factor(assessment, "step-rate").value()).hasValue(170);
        String text = "gerdy: 1\ncase: wired\nvisits:\n" + both;
        assertThat(GERDY.reader().check("case.yaml", new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8))))
                .map(Object::toString)
                .containsExactly("case.yaml:6:16: " + told);
        assertThat(GERDY.assess(read(both.replace("170", "160 steps/min"))).clashes())
                .isEmpty();
    }

    @Test
    void aMeasureThatCannotAnswerItsFindingStopsTheLoad() {
        KnowledgeFiles files = replaced("knowledge/findings.csv", "number,,cm,0,30,yes", "number,,degrees,0,30,yes");
        KnowledgeBase shipped = GERDY.knowledge();
        assertThatThrownBy(() -> KnowledgeLoader.load(files, shipped.identity(), shipped.rules(), shipped.kieBase())
                        .factors())
                .isInstanceOf(KnowledgeException.class)
                .hasMessage("The measure 'lunge-distance' is to answer the finding 'lunge-distance', which takes other"
                        + " units, sides or words; mend one of the two.");
    }

    @Test
    void aRuleThatReadsAnUnknownFactorOrAVerdictOutOfReachStopsTheLoad() {
        assertThatThrownBy(() -> edited("plan-step-rate", "\"step-rate\"", "\"step-rat\"")
                        .factors())
                .isInstanceOf(KnowledgeException.class)
                .hasMessageContaining("there is no factor 'step-rat'; did you mean 'step-rate'?");
        assertThatThrownBy(
                        () -> edited("plan-step-rate", "\"borderline\", ", "").factors())
                .isInstanceOf(KnowledgeException.class)
                .hasMessageContaining("stops at 'borderline' in factors.csv, so the rule would never fire.");
    }

    @Test
    void aPlanItemForAnUnknownFactorStopsTheLoad() {
        KnowledgeFiles files = replaced("knowledge/plan-items.csv", ",session-spike,", ",session-spik,");
        KnowledgeBase shipped = GERDY.knowledge();
        assertThatThrownBy(() -> KnowledgeLoader.load(files, shipped.identity(), shipped.rules(), shipped.kieBase())
                        .factors())
                .isInstanceOf(KnowledgeException.class)
                .hasMessageContaining("there is no factor 'session-spik'; did you mean 'session-spike'?");
    }

    private static KnowledgeBase edited(String rule, String from, String to) {
        KnowledgeBase shipped = GERDY.knowledge();
        Map<String, RuleCard> rules = new LinkedHashMap<>(shipped.rules());
        rules.computeIfPresent(
                rule,
                (id, card) -> new RuleCard(
                        id,
                        card.name(),
                        card.file(),
                        card.line(),
                        card.row(),
                        card.sources(),
                        card.basis(),
                        card.because(),
                        card.reads(),
                        card.logic(),
                        card.text().replace(from, to)));
        return KnowledgeLoader.load(LateralKnee.files(), shipped.identity(), rules, shipped.kieBase());
    }

    private static KnowledgeFiles replaced(String path, String from, String to) {
        KnowledgeFiles shipped = LateralKnee.files();
        return new KnowledgeFiles() {
            @Override
            public InputStream open(String file) throws IOException {
                InputStream in = shipped.open(file);
                if (!file.equals(path)) {
                    return in;
                }
                String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
                assertThat(text).contains(from);
                return new ByteArrayInputStream(text.replace(from, to).getBytes(StandardCharsets.UTF_8));
            }

            @Override
            public boolean has(String file) {
                return shipped.has(file);
            }

            @Override
            public List<String> list() throws IOException {
                return shipped.list();
            }
        };
    }
}
