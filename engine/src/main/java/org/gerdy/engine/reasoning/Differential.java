package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.Weighed;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Priors;
import org.gerdy.engine.knowledge.Settings;

/**
 * Odds form of Bayes, one condition at a time, on the log scale. Findings of one cluster count once, the strongest.
 * Further clusters count for less, because findings are never quite independent. Bounds come from the standard errors of
 * the log ratios and of the prior, added in quadrature. The method page tells the approximations.
 */
public final class Differential {
    private static final double Z95 = 1.959963984540054;

    private final double[] clusterWeights;
    private final double greatestLog;

    /** A differential with the weights and the cap of the settings table. */
    public Differential(Settings settings) {
        this.clusterWeights = new double[] {
            settings.value("cluster-weight-first"),
            settings.value("cluster-weight-second"),
            settings.value("cluster-weight-further")
        };
        this.greatestLog = Math.log(settings.value("greatest-combined-ratio"));
    }

    /** One finding's log ratio, and whether it counted. */
    public record Counted(EvidenceRow row, boolean present, EvidenceRow.Ratio ratio, boolean counts) {}

    /**
     * A condition's posterior by itself.
     *
     * @param logOdds posterior log odds
     * @param deviation standard deviation of the log odds
     * @param shift what the findings added to the prior log odds
     * @param evidence every finding that spoke
     */
    public record Posterior(String condition, double logOdds, double deviation, double shift, List<Counted> evidence) {
        /** Posterior probability of this condition against everything else. */
        public double probability() {
            return 1 / (1 + Math.exp(-logOdds));
        }
    }

    /** A condition's share of all candidates, with 95 % bounds. */
    public record Share(double value, double low, double high) {}

    /** The posterior of one condition. */
    public Posterior posterior(String condition, Priors.Prior prior, List<Counted> evidence) {
        Map<String, Counted> strongest = new LinkedHashMap<>();
        for (Counted one : evidence) {
            String cluster = one.row().cluster().isEmpty()
                    ? one.row().finding()
                    : one.row().cluster();
            strongest.merge(
                    cluster,
                    one,
                    (a, b) -> Math.abs(b.ratio().log()) > Math.abs(a.ratio().log()) ? b : a);
        }
        Set<Counted> counts = Collections.newSetFromMap(new IdentityHashMap<>());
        counts.addAll(strongest.values());
        List<Counted> counting = new ArrayList<>(strongest.values());
        counting.sort(Comparator.comparingDouble(
                        (Counted one) -> -Math.abs(one.ratio().log()))
                .thenComparing(one -> one.row().finding()));
        double shift = 0;
        double variance = prior.deviation() * prior.deviation();
        for (int i = 0; i < counting.size(); i++) {
            double weight = clusterWeights[Math.min(i, clusterWeights.length - 1)];
            EvidenceRow.Ratio ratio = counting.get(i).ratio();
            shift += weight * ratio.log();
            variance += weight * weight * ratio.standardError() * ratio.standardError();
        }
        shift = Math.max(-greatestLog, Math.min(greatestLog, shift));
        List<Counted> told = evidence.stream()
                .map(one -> new Counted(one.row(), one.present(), one.ratio(), counts.contains(one)))
                .toList();
        return new Posterior(condition, prior.logOdds() + shift, Math.sqrt(variance), shift, told);
    }

    /** Every finding that speaks about each condition. */
    static Map<String, List<Counted>> byCondition(KnowledgeBase knowledge, Collection<Weighed> weighed) {
        Map<String, List<Counted>> evidence = new LinkedHashMap<>();
        List<Weighed> ordered = new ArrayList<>(weighed);
        ordered.sort(Comparator.comparing(Weighed::finding));
        for (Weighed one : ordered) {
            for (EvidenceRow row : one.rows()) {
                row.ratio(one.present())
                        .ifPresent(ratio -> evidence.computeIfAbsent(row.condition(), ignored -> new ArrayList<>())
                                .add(new Counted(row, one.present(), ratio, true)));
            }
        }
        return evidence;
    }

    /**
     * Shares over all candidates: each one's own probability over the sum of all.
     *
     * <p>The bounds are those of the delta method on the logit of the share. With p each candidate's own probability, s
     * the deviation of its log odds and O the sum of the others: the slope on its own log odds is 1-p, on another
     * candidate's q it is -q(1-q)/O, and the variance is the sum of slope² s².
     */
    public static List<Share> shares(List<Posterior> posteriors) {
        int n = posteriors.size();
        double[] p = new double[n];
        double[] onSum = new double[n];
        double sum = 0;
        double spread = 0;
        for (int i = 0; i < n; i++) {
            p[i] = posteriors.get(i).probability();
            sum += p[i];
            double slope = p[i] * (1 - p[i]) * posteriors.get(i).deviation();
            onSum[i] = slope * slope;
            spread += onSum[i];
        }
        List<Share> shares = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            double others = sum - p[i];
            double own = (1 - p[i]) * posteriors.get(i).deviation();
            shares.add(share(p[i], others, own * own + (spread - onSum[i]) / (others * others)));
        }
        return shares;
    }

    private static Share share(double own, double others, double variance) {
        double logit = Math.log(own) - Math.log(others);
        double deviation = Math.sqrt(variance);
        return new Share(own / (own + others), expit(logit - Z95 * deviation), expit(logit + Z95 * deviation));
    }

    private static double expit(double logOdds) {
        return 1 / (1 + Math.exp(-logOdds));
    }
}
