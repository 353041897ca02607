package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Weighed;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;

/** Orders the conditions by share and says how each stands and what would settle it. */
final class CandidateRanking {
    private final KnowledgeBase knowledge;
    private final Differential differential;
    private final Settling settling;

    CandidateRanking(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.differential = new Differential(knowledge.settings());
        this.settling = new Settling(knowledge.evidence(), knowledge.settings());
    }

    /** Every possible condition, largest share first. */
    List<CandidateResult> rank(
            Observations observations, String population, Collection<Weighed> weighed, List<Flag> flags) {
        Map<String, List<Differential.Counted>> evidence = Differential.byCondition(knowledge, weighed);
        List<Differential.Posterior> posteriors = new ArrayList<>();
        for (Condition condition : knowledge.conditions().values()) {
            if (!possible(condition, observations)) {
                continue;
            }
            Differential.Posterior posterior = differential.posterior(
                    condition.id(),
                    knowledge.priors().of(population, condition.id()),
                    evidence.getOrDefault(condition.id(), List.of()));
            posteriors.add(posterior);
        }
        List<Differential.Share> shares = Differential.shares(posteriors);
        double top =
                shares.stream().mapToDouble(Differential.Share::value).max().orElse(0);
        List<Ranked> ranked = new ArrayList<>();
        for (int i = 0; i < posteriors.size(); i++) {
            Condition condition = knowledge.condition(posteriors.get(i).condition());
            Standing standing = standing(condition, posteriors.get(i), shares.get(i), top, flags);
            ranked.add(new Ranked(condition, posteriors.get(i), shares.get(i), standing));
        }
        ranked.sort(Comparator.comparingDouble((Ranked one) -> -one.share().value())
                .thenComparing(one -> one.condition().id()));
        Settling.Open open = settling.open(observations);
        return ranked.stream().map(one -> result(one, settle(one, open))).toList();
    }

    private record Ranked(
            Condition condition, Differential.Posterior posterior, Differential.Share share, Standing standing) {}

    static boolean possible(Condition condition, Observations observations) {
        if (!condition.sex().isEmpty() && !observations.choices("sex").isEmpty()) {
            String other = condition.sex().equals("female") ? "male" : "female";
            if (observations.choices("sex").contains(other)) {
                return false;
            }
        }
        return condition.fitsAge(observations);
    }

    private Standing standing(
            Condition condition,
            Differential.Posterior posterior,
            Differential.Share share,
            double top,
            List<Flag> flags) {
        if (share.value() >= top * knowledge.settings().value("leading-part-of-top")) {
            return Standing.LEADING;
        }
        if (condition.id().equals(Condition.UNEXPLAINED)) {
            return Standing.PLAUSIBLE;
        }
        boolean small = share.value() < knowledge.settings().value("unlikely-share");
        if (!condition.mustNotMiss()) {
            return small ? Standing.UNLIKELY : Standing.PLAUSIBLE;
        }
        if (!condition.flags().isEmpty()) {
            // Every danger sign its flags need was asked; what is left of it is its small share.
            return small && !Reasoner.guarded(condition, flags) ? Standing.UNLIKELY : Standing.PLAUSIBLE;
        }
        boolean spokenAgainst =
                posterior.shift() <= Math.log(knowledge.settings().value("must-not-miss-unlikely-ratio"));
        return small && spokenAgainst ? Standing.UNLIKELY : Standing.PLAUSIBLE;
    }

    /** What would settle a candidate worth separating. */
    private static List<String> settle(Ranked one, Settling.Open open) {
        return one.standing() == Standing.UNLIKELY || one.condition().id().equals(Condition.UNEXPLAINED)
                ? List.of()
                : open.worthAsking(one.condition().id(), one.posterior().probability());
    }

    private static CandidateResult result(Ranked one, List<String> settle) {
        List<CandidateResult.Weight> supporting = new ArrayList<>();
        List<CandidateResult.Weight> opposing = new ArrayList<>();
        one.posterior().evidence().stream()
                .sorted(Comparator.comparingDouble((Differential.Counted counted) ->
                                -Math.abs(counted.ratio().log()))
                        .thenComparing(counted -> counted.row().finding()))
                .forEach(counted -> (counted.ratio().value() >= 1 ? supporting : opposing)
                        .add(new CandidateResult.Weight(
                                counted.row().finding(),
                                counted.present(),
                                counted.ratio().value(),
                                counted.counts(),
                                counted.row().basis(),
                                counted.row().sources())));
        return new CandidateResult(
                one.condition().id(),
                one.condition().name(),
                one.share().value(),
                one.share().low(),
                one.share().high(),
                one.standing(),
                one.condition().mustNotMiss(),
                one.condition().disposition(),
                List.copyOf(supporting),
                List.copyOf(opposing),
                settle);
    }
}
