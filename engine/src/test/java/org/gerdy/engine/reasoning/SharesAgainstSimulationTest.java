package org.gerdy.engine.reasoning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.random.Well19937c;

/** The closed-form bounds of a share against drawing every candidate's log odds at random many times. */
class SharesAgainstSimulationTest {
    private static final int DRAWS = 20_000;

    /** How far the two bounds may differ, as log odds of the share: the closed form is a first-order approximation. */
    private static final double TOLERANCE = 0.25;

    @Property(tries = 60)
    void theClosedFormBoundsAgreeWithDrawingAtRandom(
            @ForAll @Size(min = 3, max = 8) List<@DoubleRange(min = -5, max = 0.5) Double> logOdds,
            @ForAll @DoubleRange(min = 0.1, max = 0.5) double deviation) {
        List<Differential.Posterior> posteriors = new ArrayList<>();
        for (double one : logOdds) {
            posteriors.add(new Differential.Posterior("c" + posteriors.size(), one, deviation, 0, List.of()));
        }
        List<Differential.Share> shares = Differential.shares(posteriors);
        NormalDistribution normal = new NormalDistribution(new Well19937c(20260302), 0, deviation);
        int n = logOdds.size();
        double[][] drawn = new double[n][DRAWS];
        for (int draw = 0; draw < DRAWS; draw++) {
            double[] p = new double[n];
            double sum = 0;
            for (int i = 0; i < n; i++) {
                p[i] = 1 / (1 + Math.exp(-(logOdds.get(i) + normal.sample())));
                sum += p[i];
            }
            for (int i = 0; i < n; i++) {
                drawn[i][draw] = p[i] / sum;
            }
        }
        for (int i = 0; i < n; i++) {
            Arrays.sort(drawn[i]);
            assertThat(logit(shares.get(i).low()))
                    .as("lower bound of candidate %s", i)
                    .isCloseTo(logit(drawn[i][(int) (0.025 * DRAWS)]), within(TOLERANCE));
            assertThat(logit(shares.get(i).high()))
                    .as("upper bound of candidate %s", i)
                    .isCloseTo(logit(drawn[i][(int) (0.975 * DRAWS)]), within(TOLERANCE));
        }
    }

    private static double logit(double p) {
        return Math.log(p / (1 - p));
    }
}
