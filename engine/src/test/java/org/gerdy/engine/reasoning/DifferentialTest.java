package org.gerdy.engine.reasoning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.Priors;
import org.gerdy.engine.knowledge.Settings;
import org.gerdy.engine.vocabulary.Basis;
import org.junit.jupiter.api.Test;

class DifferentialTest {
    private static final Differential DIFFERENTIAL = new Differential(new Settings(Map.of(
            "cluster-weight-first", 1.0,
            "cluster-weight-second", 0.7,
            "cluster-weight-further", 0.5,
            "greatest-combined-ratio", 100.0)));

    private static Priors.Prior prior(double probability, double low, double high) {
        return new Priors.Prior(probability, low, high, Basis.JUDGEMENT, List.of());
    }

    private static Differential.Counted finding(String id, String cluster, double ratio, double low, double high) {
        EvidenceRow.Ratio weight = new EvidenceRow.Ratio(ratio, low, high);
        return new Differential.Counted(
                new EvidenceRow(
                        id,
                        "condition",
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

    @Test
    void oneFindingMultipliesTheOddsByItsRatio() {
        Differential.Posterior posterior =
                DIFFERENTIAL.posterior("c", prior(0.30, 0.2, 0.4), List.of(finding("a", "", 3.5, 2, 6)));
        // Bayes in odds form, exact arithmetic: 0.3/0.7 x 3.5 = 1.5.
        assertThat(posterior.probability()).isCloseTo(0.600, within(1e-12));
    }

    @Test
    void findingsOfOneClusterCountOnceTheStrongest() {
        Differential.Posterior posterior = DIFFERENTIAL.posterior(
                "c",
                prior(0.30, 0.2, 0.4),
                List.of(finding("a", "same", 2, 1, 4), finding("b", "same", 3.5, 2, 6), finding("c", "same", 3, 2, 5)));
        assertThat(posterior.probability()).isCloseTo(0.600, within(1e-12));
        assertThat(posterior.evidence())
                .extracting(Differential.Counted::counts)
                .containsExactly(false, true, false);
    }

    @Test
    void theStrongestOfAClusterIsTheFarthestFromOneEitherWay() {
        Differential.Posterior posterior = DIFFERENTIAL.posterior(
                "c",
                prior(0.5, 0.4, 0.6),
                List.of(finding("a", "same", 2, 1, 4), finding("b", "same", 0.1, 0.05, 0.2)));
        assertThat(posterior.probability()).isCloseTo(0.1 / 1.1, within(1e-12));
    }

    @Test
    void aSecondClusterCountsForLess() {
        // Worked example A of the method: prior 0.55 (0.40 to 0.75), two clusters of ratio 4 (1.5 to 10.7), the second
        // at 0.7: 0.928, 95 % 0.76 to 0.98. Exact arithmetic from those inputs.
        Differential.Posterior posterior = DIFFERENTIAL.posterior(
                "c",
                prior(0.55, 0.40, 0.75),
                List.of(finding("a", "one", 4, 1.5, 10.7), finding("b", "two", 4, 1.5, 10.7)));
        assertThat(posterior.logOdds()).isCloseTo(2.5574, within(5e-4));
        assertThat(posterior.probability()).isCloseTo(0.928, within(5e-4));
        assertThat(posterior.deviation()).isCloseTo(0.721, within(5e-3));
    }

    @Test
    void allFindingsTogetherNeverExceedTheCap() {
        List<Differential.Counted> many = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            many.add(finding("f" + i, "", 10, 5, 20));
        }
        assertThat(DIFFERENTIAL.posterior("c", prior(0.5, 0.4, 0.6), many).shift())
                .isCloseTo(Math.log(100), within(1e-12));
    }

    @Test
    void theOrderOfFindingsChangesNothing() {
        List<Differential.Counted> some = new ArrayList<>(
                List.of(finding("a", "", 3, 2, 5), finding("b", "", 0.3, 0.2, 0.5), finding("c", "", 3, 1, 9)));
        Differential.Posterior before = DIFFERENTIAL.posterior("c", prior(0.2, 0.1, 0.4), some);
        java.util.Collections.reverse(some);
        Differential.Posterior after = DIFFERENTIAL.posterior("c", prior(0.2, 0.1, 0.4), some);
        assertThat(after.logOdds()).isEqualTo(before.logOdds());
        assertThat(after.deviation()).isEqualTo(before.deviation());
    }

    @Test
    void theStandardErrorComesFromTheWidthOfTheBounds() {
        // Log method of Simel, Samsa and Matchar 1991: half the width of the log bounds over 1.96.
        EvidenceRow.Ratio ratio = new EvidenceRow.Ratio(2, 1, 4);
        assertThat(ratio.standardError()).isCloseTo(Math.log(2) / 1.959964, within(1e-6));
    }

    @Test
    void sharesAddUpToOneAndLieInsideTheirBounds() {
        List<Differential.Posterior> posteriors = List.of(
                DIFFERENTIAL.posterior("a", prior(0.5, 0.4, 0.6), List.of()),
                DIFFERENTIAL.posterior("b", prior(0.2, 0.1, 0.4), List.of(finding("x", "", 5, 2, 12))),
                DIFFERENTIAL.posterior("c", prior(0.01, 0.005, 0.02), List.of()));
        List<Differential.Share> shares = Differential.shares(posteriors);
        assertThat(shares.stream().mapToDouble(Differential.Share::value).sum()).isCloseTo(1, within(1e-12));
        assertThat(shares).allSatisfy(share -> assertThat(share.value()).isBetween(share.low(), share.high()));
    }
}
