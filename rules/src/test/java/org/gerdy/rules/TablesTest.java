package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What must hold inside and between the tables. */
class TablesTest {
    private static final KnowledgeBase KNOWLEDGE = Shipped.GERDY.knowledge();
    private static final Set<String> SOURCES = KNOWLEDGE.bibliography().keySet();

    private static double number(Map<String, String> row, String column) {
        return Double.parseDouble(row.get(column));
    }

    private static String name(Map<String, String> row) {
        return row.get("finding") + "/" + row.get("condition");
    }

    @Test
    void aRatioDerivedFromSensitivityAndSpecificityAgreesWithThem() {
        List<String> wrong = new ArrayList<>();
        int seen = 0;
        for (Map<String, String> row : Shipped.table("evidence.csv")) {
            if (!row.get("origin").equals("from-sensitivity-specificity")) {
                continue;
            }
            seen++;
            double sensitivity = number(row, "sensitivity");
            double specificity = number(row, "specificity");
            if (!row.get("lr_pos").isBlank()
                    && Math.abs(number(row, "lr_pos") / (sensitivity / (1 - specificity)) - 1) > 0.01) {
                wrong.add(name(row) + " lr_pos");
            }
            if (!row.get("lr_neg").isBlank()
                    && Math.abs(number(row, "lr_neg") / ((1 - sensitivity) / specificity) - 1) > 0.01) {
                wrong.add(name(row) + " lr_neg");
            }
        }
        assertThat(seen).isGreaterThan(8);
        assertThat(wrong).isEmpty();
    }

    @Test
    void everyRatioIsFiniteAboveZeroAndInsideItsBounds() {
        for (Map<String, String> row : Shipped.table("evidence.csv")) {
            for (String column : List.of("lr_pos", "lr_neg")) {
                if (!row.get(column).isBlank()) {
                    assertThat(number(row, column))
                            .as(name(row) + " " + column)
                            .isPositive()
                            .isFinite()
                            .isBetween(number(row, column + "_low"), number(row, column + "_high"));
                    assertThat(number(row, column + "_low")).isPositive();
                }
            }
        }
    }

    @Test
    void aVerbalWeightIsJudgementWithBoundsTheWiderTheStrongerAndACap() {
        List<String> wrong = new ArrayList<>();
        int seen = 0;
        for (Map<String, String> row : Shipped.table("evidence.csv")) {
            if (row.get("origin").equals("verbal-weight")) {
                seen++;
                boolean judged = row.get("basis").equals("judgement");
                for (String column : List.of("lr_pos", "lr_neg")) {
                    if (!row.get(column).isBlank()) {
                        double value = number(row, column);
                        double width = number(row, column + "_high") / number(row, column + "_low");
                        // Judgement: 20 or 1/20 at most; beyond strong (4 or 1/4) the bounds are a factor of 25 apart.
                        boolean beyondStrong = value > 4 || value < 0.25;
                        if (!judged || value > 20 || value < 0.05 || width < (beyondStrong ? 24.9 : 3)) {
                            wrong.add(name(row) + " " + column);
                        }
                    }
                }
            }
        }
        assertThat(seen).isGreaterThan(1000);
        assertThat(wrong).isEmpty();
    }

    /** One cluster is one fact, whether the catalogue or the evidence table puts a finding in it. */
    @Test
    void aClusterHoldsMoreThanOneFinding() {
        Map<String, Set<String>> clusters = new TreeMap<>();
        Shipped.table("findings.csv")
                .forEach(row -> clusters.computeIfAbsent(row.get("cluster"), ignored -> new TreeSet<>())
                        .add(row.get("id")));
        Shipped.table("evidence.csv")
                .forEach(row -> clusters.computeIfAbsent(row.get("cluster"), ignored -> new TreeSet<>())
                        .add(row.get("finding")));
        clusters.remove("");
        assertThat(clusters).hasSizeGreaterThan(40);
        assertThat(clusters.entrySet().stream().filter(entry -> entry.getValue().size() < 2))
                .isEmpty();
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(
            strings = {
                "accuracy-studies.csv",
                "conditions.csv",
                "decision-rules.csv",
                "derived.csv",
                "evidence.csv",
                "populations.csv",
                "priors.csv",
                "red-flag-terms.csv",
                "red-flags.csv",
                "referrals.csv",
                "scores.csv",
                "settings.csv",
                "terms.csv"
            })
    void everySourceNamedIsInTheBibliography(String table) {
        List<String> missing = new ArrayList<>();
        for (Map<String, String> row : Shipped.table(table)) {
            String keys = row.getOrDefault("source", row.getOrDefault("sources", ""));
            Arrays.stream(keys.split("\\|"))
                    .map(String::strip)
                    .filter(key -> !key.isEmpty() && !SOURCES.contains(key))
                    .forEach(missing::add);
        }
        assertThat(missing).isEmpty();
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(
            strings = {
                "decision-rules.csv",
                "derived.csv",
                "evidence.csv",
                "populations.csv",
                "priors.csv",
                "red-flag-terms.csv",
                "red-flags.csv",
                "referrals.csv",
                "scores.csv",
                "settings.csv",
                "terms.csv"
            })
    void whatIsPublishedOrRecalledNamesItsSource(String table) {
        assertThat(Shipped.table(table))
                .filteredOn(row -> (row.get("basis").equals("published")
                                || row.get("basis").equals("recalled"))
                        && row.get("source").isBlank())
                .isEmpty();
        assertThat(Shipped.table(table))
                .extracting(row -> row.get("basis"))
                .isSubsetOf("published", "recalled", "common-practice", "judgement");
    }

    @Test
    void everyRuleNamesSourcesOfTheBibliographyOrAnHonestBasis() {
        KNOWLEDGE.rules().values().forEach(rule -> {
            assertThat(SOURCES).as(rule.id()).containsAll(rule.sources());
            if (rule.basis().word().equals("published") || rule.basis().word().equals("recalled")) {
                assertThat(rule.sources()).as(rule.id()).isNotEmpty();
            }
        });
    }

    @Test
    void thePriorsOfEachPopulationAddUpToOneInsideTheirBounds() {
        for (String population : KNOWLEDGE.priors().populations().keySet()) {
            var priors = KNOWLEDGE.priors().of(population);
            assertThat(priors.values().stream()
                            .mapToDouble(prior -> prior.probability())
                            .sum())
                    .as(population)
                    .isCloseTo(1, within(1e-5));
            priors.forEach((condition, prior) -> {
                assertThat(prior.low()).as(population + "/" + condition).isPositive();
                assertThat(prior.high()).as(population + "/" + condition).isLessThan(1);
                assertThat(prior.probability()).isBetween(prior.low(), prior.high());
            });
        }
    }

    @Test
    void everyRowOfARedFlagIsServedByARuleAndEveryRuleServesARow() {
        Set<String> served =
                KNOWLEDGE.rules().values().stream().map(rule -> rule.row()).collect(Collectors.toSet());
        assertThat(KNOWLEDGE.redFlags()).extracting(row -> row.id()).allMatch(served::contains);
        assertThat(KNOWLEDGE.rules().values().stream()
                        .filter(rule -> rule.file().startsWith("redflags/")))
                .allMatch(rule -> !rule.row().isEmpty());
    }

    @Test
    void theHipAndTheSpineAreAmongTheThingsEverybodyIsAsked() {
        assertThat(KNOWLEDGE.rowsByFlag().get("hip-source").get(0).needs()).contains("hip-ir-limited", "hip-ir-pain");
        assertThat(KNOWLEDGE.rowsByFlag().get("spine-source").get(0).needs()).contains("back-pain");
    }
}
