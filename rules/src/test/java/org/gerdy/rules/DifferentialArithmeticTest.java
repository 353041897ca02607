package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.assertj.core.data.Percentage;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.Priors;
import org.gerdy.engine.reasoning.Differential;
import org.gerdy.engine.vocabulary.Basis;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Likelihood ratios from counts, probabilities after a finding, against published and exact values. */
class DifferentialArithmeticTest {
    private static final double Z = 1.959964;

    /** Ratio with 95 % bounds by the log method of Simel, Samsa and Matchar 1991. */
    private record Ratio(double value, double low, double high) {
        static Ratio positive(double tp, double fp, double fn, double tn) {
            return of(tp, tp + fn, fp, fp + tn);
        }

        static Ratio negative(double tp, double fp, double fn, double tn) {
            return of(fn, tp + fn, tn, fp + tn);
        }

        private static Ratio of(double with, double ill, double without, double well) {
            double value = with / ill / (without / well);
            double error = Math.sqrt(1 / with - 1 / ill + 1 / without - 1 / well);
            return new Ratio(value, value * Math.exp(-Z * error), value * Math.exp(Z * error));
        }
    }

    private static void carried(String id, String column, Ratio expected) {
        Map<String, String> row = Shipped.table("accuracy-studies.csv").stream()
                .filter(one -> one.get("id").equals(id))
                .findFirst()
                .orElseThrow();
        Percentage rounding = Percentage.withPercentage(3);
        assertThat(Double.parseDouble(row.get(column))).isCloseTo(expected.value(), rounding);
        assertThat(Double.parseDouble(row.get(column + "_low")))
                .isCloseTo(expected.low(), within(0.02 * expected.low() + 0.0005));
        assertThat(Double.parseDouble(row.get(column + "_high"))).isCloseTo(expected.high(), rounding);
    }

    @Test
    void countsOfAPublishedTableGiveTheRatiosCarried() {
        // Montaner-Cuello 2023: 73, 45, 9, 15; published LR+ 1.19 (1.01 to 1.40), LR- 0.44.
        String id = Shipped.table("accuracy-studies.csv").stream()
                .map(row -> row.get("id"))
                .filter(one -> one.startsWith("slr-positive--") && one.endsWith("montaner2023"))
                .findFirst()
                .orElseThrow();
        carried(id, "lr_pos", Ratio.positive(73, 45, 9, 15));
        carried(id, "lr_neg", Ratio.negative(73, 45, 9, 15));
        assertThat(Ratio.positive(73, 45, 9, 15).value()).isCloseTo(1.19, within(0.005));
    }

    @Test
    void anEmptyCellIsFilledWithAHalfAndNeverGivesAnInfiniteRatio() {
        // Ahmad 2009: 25, 3, 0, 23; sensitivity 1.0, specificity 0.885 as published.
        String id = "moving-patellar-apprehension--lateral-patellar-instability--ahmad2009";
        carried(id, "lr_pos", Ratio.positive(25.5, 3.5, 0.5, 23.5));
        carried(id, "lr_neg", Ratio.negative(25.5, 3.5, 0.5, 23.5));
    }

    @Test
    void countsRebuiltFromAPublishedTableGiveThePublishedRatio() {
        // Kastelein 2009: 35, 47, 7, 45; published LR+ 1.6.
        String id = "effusion-ballottement--joint-effusion-intermediate--kastelein2009";
        carried(id, "lr_pos", Ratio.positive(35, 47, 7, 45));
        carried(id, "lr_neg", Ratio.negative(35, 47, 7, 45));
        assertThat(Ratio.positive(35, 47, 7, 45).value()).isCloseTo(1.6, within(0.05));
    }

    @Test
    void aWeakModifierIsCarriedAsWeak() {
        // Taunton 2002 through a summary: 105, 971, 63, 863.
        String id = "female-sex--iliotibial-band-syndrome--taunton2002";
        carried(id, "lr_pos", Ratio.positive(105, 971, 63, 863));
        carried(id, "lr_neg", Ratio.negative(105, 971, 63, 863));
    }

    @ParameterizedTest(name = "prior {0}, ratio {1}: {2}")
    @CsvSource({
        // Wagemakers 2010, prevalence 28/134: published PPV 0.39, 0.42, 0.52; exact arithmetic from the ratios.
        "0.2090, 2.333, 0.3813",
        "0.2090, 2.448, 0.3927",
        "0.2090, 4.200, 0.5259",
        // Peat 2006, prevalence 0.33: published PPV 44 %, NPV 72 %.
        "0.33, 1.640, 0.4468",
        "0.33, 0.7867, 0.2793",
        // Kastelein 2009, prevalence 42/134, negative result of 0.83 and 0.49: published NPV 86 %.
        "0.3134, 0.3469, 0.1367",
        // Bachmann 2004: pooled LR- 0.05.
        "0.06, 0.05, 0.00318",
        "0.07, 0.05, 0.00375",
        // Nye 2020: 0.975 and 0.542; published NPV 98.2 % at prevalence 204/778.
        "0.02, 0.0461, 0.00094",
        "0.2622, 0.0461, 0.01612",
        "0.2622, 2.129, 0.4307",
        // McGee 2002: exact values behind the bedside approximation.
        "0.50, 2, 0.6667",
        "0.50, 5, 0.8333",
        "0.50, 10, 0.9091",
        "0.40, 0.2, 0.1176",
        "0.30, 5, 0.6818",
        // Margaretten 2007, prior 10 %.
        "0.10, 2.7, 0.2308",
        "0.10, 6.9, 0.4340",
        "0.10, 15, 0.6250"
    })
    void oneFindingMovesAProbabilityAsBayesSays(double prior, double ratio, double after) {
        assertThat(posterior(prior, List.of(row("a", "", ratio)))).isCloseTo(after, within(0.005 * after));
    }

    @Test
    void theSameFactTwiceCountsOnce() {
        // Exact arithmetic: 0.30 with 3.5 is 0.600; counted twice it would be 0.840.
        double once = posterior(0.30, List.of(row("a", "same", 3.5)));
        assertThat(once).isCloseTo(0.600, within(1e-9));
        assertThat(posterior(0.30, List.of(row("a", "same", 3.5), row("b", "same", 3.5))))
                .isEqualTo(once);
    }

    @Test
    void threeMeniscalTestsOfOneClusterNeverMultiply() {
        // 3.35 x 4.42 x 6.40 on 0.135 would claim 0.937; the strongest alone is 0.500. Exact arithmetic.
        double together =
                posterior(0.135, List.of(row("a", "tests", 3.35), row("b", "tests", 4.42), row("c", "tests", 6.40)));
        assertThat(together).isCloseTo(0.500, within(0.001));
    }

    @Test
    void theSequenceOfPublishedProbabilitiesComesBack() {
        // Kinsella 2024: 0.59 to 0.96 and to 0.14.
        assertThat(posterior(0.59, List.of(row("a", "", 16.68)))).isCloseTo(0.96, within(0.0005));
        assertThat(posterior(0.59, List.of(row("a", "", 0.1131)))).isCloseTo(0.14, within(0.0005));
    }

    private static Differential.Counted row(String finding, String cluster, double ratio) {
        EvidenceRow.Ratio weight = new EvidenceRow.Ratio(ratio, ratio / 2, ratio * 2);
        return new Differential.Counted(
                new EvidenceRow(
                        finding,
                        "c",
                        Optional.of(weight),
                        Optional.empty(),
                        cluster,
                        "",
                        Basis.JUDGEMENT,
                        List.of(),
                        ""),
                true,
                weight,
                true);
    }

    private static double posterior(double prior, List<Differential.Counted> findings) {
        return new Differential(Shipped.GERDY.knowledge().settings())
                .posterior(
                        "c",
                        new Priors.Prior(prior, prior / 2, Math.min(0.99, prior * 1.5), Basis.JUDGEMENT, List.of()),
                        findings)
                .probability();
    }
}
