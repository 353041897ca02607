package org.gerdy.engine.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.stat.correlation.Covariance;
import org.apache.commons.math3.stat.correlation.PearsonsCorrelation;
import org.apache.commons.math3.stat.descriptive.moment.Mean;
import org.apache.commons.math3.stat.descriptive.moment.StandardDeviation;
import org.junit.jupiter.api.Test;

/** Held against Apache Commons Math 3.6.1: mean, standard deviation, correlation and covariance matrix. */
class ItemAnalysisTest {
    @Property
    void difficultyAndDiscriminationAgreeWithCommonsMath(@ForAll("scores") double[][] scores) {
        int cases = scores[0].length;
        ItemAnalysis analysis = ItemAnalysis.of(
                IntStream.range(0, cases).mapToObj(Integer::toString).toList(), scores, 100);
        for (int item = 0; item < cases; item++) {
            double[] own = new double[scores.length];
            double[] rest = new double[scores.length];
            for (int learner = 0; learner < scores.length; learner++) {
                own[learner] = scores[learner][item];
                for (int other = 0; other < cases; other++) {
                    rest[learner] += other == item ? 0 : scores[learner][other];
                }
            }
            ItemAnalysis.Item found = analysis.items().get(item);
            assertThat(found.difficulty()).isCloseTo(new Mean().evaluate(own) / 100, within(1e-9));
            assertThat(found.deviation()).isCloseTo(new StandardDeviation().evaluate(own), within(1e-9));
            double correlation = new PearsonsCorrelation().correlation(own, rest);
            if (Double.isNaN(correlation)) {
                assertThat(found.discrimination()).isEmpty();
            } else {
                assertThat(found.discrimination().orElseThrow()).isCloseTo(correlation, within(1e-6));
            }
        }
    }

    @Property
    void alphaAgreesWithTheCovarianceMatrixOfCommonsMath(@ForAll("scores") double[][] scores) {
        int cases = scores[0].length;
        var matrix = new Covariance(new Array2DRowRealMatrix(scores)).getCovarianceMatrix();
        double all = 0;
        for (double[] row : matrix.getData()) {
            for (double one : row) {
                all += one;
            }
        }
        ItemAnalysis analysis = ItemAnalysis.of(
                IntStream.range(0, cases).mapToObj(Integer::toString).toList(), scores, 100);
        if (all > 1e-6) {
            // Cronbach 1951 (recalled): k / (k - 1) * (1 - trace / sum of the covariance matrix).
            double alpha = cases / (cases - 1.0) * (1 - matrix.getTrace() / all);
            assertThat(analysis.alpha().orElseThrow()).isCloseTo(alpha, within(1e-6 * Math.max(1, Math.abs(alpha))));
        }
    }

    @Test
    void aCaseEverybodySolvesAlikePartsNobody() {
        ItemAnalysis analysis =
                ItemAnalysis.of(List.of("x", "y"), new double[][] {{100, 20}, {100, 80}, {100, 50}}, 100);
        assertThat(analysis.items().get(0).difficulty()).isEqualTo(1);
        assertThat(analysis.items().get(0).discrimination()).isEmpty();
    }

    @Test
    void oneLearnerGivesNoAlpha() {
        assertThat(ItemAnalysis.of(List.of("x", "y"), new double[][] {{100, 20}}, 100)
                        .alpha())
                .isEmpty();
    }

    @Provide
    Arbitrary<double[][]> scores() {
        Arbitrary<Integer> learners = Arbitraries.integers().between(3, 12);
        Arbitrary<Integer> cases = Arbitraries.integers().between(2, 8);
        return learners.flatMap(n -> cases.flatMap(
                k -> Arbitraries.integers().between(0, 100).list().ofSize(n * k).map(values -> {
                    double[][] scores = new double[n][k];
                    for (int i = 0; i < n * k; i++) {
                        scores[i / k][i % k] = values.get(i);
                    }
                    return scores;
                })));
    }
}
