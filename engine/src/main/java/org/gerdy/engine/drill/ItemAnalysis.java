package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Classical test theory over an exam: how hard each case was, whether it parts strong from weak learners, and how far the
 * whole hangs together (Lord and Novick 1968; Cronbach 1951; both recalled).
 *
 * @param items each case, in exam order
 * @param alpha Cronbach's alpha; empty below two cases, below two learners or without spread
 * @param learners how many learners handed in everything
 */
public record ItemAnalysis(List<Item> items, OptionalDouble alpha, int learners) {

    /**
     * One case.
     *
     * @param difficulty mean score over the most that can be had, 0 to 1; a high value is an easy case
     * @param deviation standard deviation of its scores, points
     * @param discrimination correlation of its score with the sum of the others, -1 to 1; empty without spread
     */
    public record Item(String id, double difficulty, double deviation, OptionalDouble discrimination) {}

    /**
     * Analyses scores.
     *
     * @param ids the cases
     * @param scores one row a learner, one score a case
     * @param most the most points a case can have
     */
    public static ItemAnalysis of(List<String> ids, double[][] scores, double most) {
        for (double[] row : scores) {
            if (row.length != ids.size()) {
                throw new IllegalArgumentException("Every learner has one score a case.");
            }
        }
        int n = scores.length;
        int k = ids.size();
        double[] totals = new double[n];
        for (int learner = 0; learner < n; learner++) {
            for (double score : scores[learner]) {
                totals[learner] += score;
            }
        }
        List<Item> items = new ArrayList<>();
        double within = 0;
        for (int item = 0; item < k; item++) {
            double[] own = new double[n];
            double[] rest = new double[n];
            for (int learner = 0; learner < n; learner++) {
                own[learner] = scores[learner][item];
                rest[learner] = totals[learner] - own[learner];
            }
            double variance = variance(own);
            within += variance;
            items.add(new Item(
                    ids.get(item),
                    n == 0 ? 0 : mean(own) / most,
                    Math.sqrt(variance),
                    k < 2 ? OptionalDouble.empty() : correlation(own, rest)));
        }
        double total = variance(totals);
        OptionalDouble alpha = n < 2 || k < 2 || total == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(k / (k - 1.0) * (1 - within / total));
        return new ItemAnalysis(List.copyOf(items), alpha, n);
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.length;
    }

    /** Sample variance, over n - 1; 0 below two values. */
    private static double variance(double[] values) {
        return values.length < 2 ? 0 : covariance(values, values);
    }

    private static double covariance(double[] a, double[] b) {
        double meanA = mean(a);
        double meanB = mean(b);
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += (a[i] - meanA) * (b[i] - meanB);
        }
        return sum / (a.length - 1);
    }

    /** Product-moment correlation; empty when either does not vary. */
    private static OptionalDouble correlation(double[] a, double[] b) {
        double spread = Math.sqrt(variance(a) * variance(b));
        return spread == 0 ? OptionalDouble.empty() : OptionalDouble.of(covariance(a, b) / spread);
    }
}
