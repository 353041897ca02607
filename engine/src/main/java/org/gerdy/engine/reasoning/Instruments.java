package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.DecisionResult.Outcome;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.ScoreResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.DecisionRule;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.ScoreDefinition;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Points;
import org.gerdy.engine.logic.Truth;

/** Published scores and decision rules, printed beside the flags with what they do and do not say. */
final class Instruments {
    private final KnowledgeBase knowledge;

    Instruments(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** Each score there is a reason to run. */
    List<ScoreResult> scores(Observations observations, List<Flag> flags) {
        List<ScoreResult> results = new ArrayList<>();
        for (ScoreDefinition score : knowledge.scores()) {
            boolean speaks =
                    score.appliesIf().map(gate -> gate.in(observations)).orElse(Truth.TRUE) == Truth.TRUE;
            if (speaks) {
                results.add(score(score, observations));
            }
        }
        return results;
    }

    private static ScoreResult score(ScoreDefinition score, Observations observations) {
        Truth excluded = score.excludedIf().map(gate -> gate.in(observations)).orElse(Truth.FALSE);
        Points.Total total = score.points().total(observations);
        Optional<String> band = score.bands().stream()
                .filter(one -> one.holds(total.low()) && one.holds(total.high()))
                .map(ScoreDefinition.Band::name)
                .findFirst();
        Set<String> unanswered = new LinkedHashSet<>();
        for (Points.Item item : score.points().items()) {
            if (item.condition().in(observations) == Truth.UNKNOWN) {
                unanswered.addAll(observations.missing(item.condition()));
            }
        }
        boolean applicable = excluded != Truth.TRUE;
        return new ScoreResult(
                score.id(),
                score.label(),
                applicable,
                total.low(),
                total.high(),
                applicable ? band : Optional.empty(),
                List.copyOf(unanswered),
                score.sources());
    }

    /** Every decision rule; outside its population it says so. */
    List<DecisionResult> decisions(Observations observations) {
        return knowledge.decisionRules().stream()
                .map(rule -> decision(rule, observations))
                .toList();
    }

    private static DecisionResult decision(DecisionRule rule, Observations observations) {
        Truth applies = rule.appliesIf().map(gate -> gate.in(observations)).orElse(Truth.TRUE);
        Truth excluded = rule.excludedIf().map(gate -> gate.in(observations)).orElse(Truth.FALSE);
        List<String> met = new ArrayList<>();
        Set<String> unanswered = new LinkedHashSet<>();
        rule.appliesIf()
                .filter(gate -> applies == Truth.UNKNOWN)
                .ifPresent(gate -> add(observations, gate, unanswered));
        for (DecisionRule.Criterion criterion : rule.criteria()) {
            Truth truth = criterion.met().in(observations);
            if (truth == Truth.TRUE) {
                met.add(criterion.name());
            } else if (truth == Truth.UNKNOWN) {
                add(observations, criterion.met(), unanswered);
            }
        }
        rule.excludedIf()
                .filter(gate -> excluded == Truth.UNKNOWN && met.isEmpty())
                .ifPresent(gate -> add(observations, gate, unanswered));
        Outcome outcome;
        if (applies == Truth.FALSE || excluded == Truth.TRUE) {
            outcome = Outcome.NOT_APPLICABLE;
        } else if (!met.isEmpty() && applies == Truth.TRUE) {
            outcome = Outcome.POSITIVE;
        } else {
            outcome = unanswered.isEmpty() ? Outcome.NEGATIVE : Outcome.INCOMPLETE;
        }
        String means =
                switch (outcome) {
                    case POSITIVE -> rule.positiveMeans();
                    case NEGATIVE -> rule.negativeMeans();
                    case NOT_APPLICABLE -> rule.notApplicableMeans();
                    case INCOMPLETE -> "Answers are missing; the rule says nothing yet.";
                };
        return new DecisionResult(
                rule.id(),
                rule.label(),
                outcome,
                outcome == Outcome.NOT_APPLICABLE ? List.of() : List.copyOf(met),
                outcome == Outcome.INCOMPLETE ? List.copyOf(unanswered) : List.of(),
                means,
                rule.sources());
    }

    private static void add(Observations observations, Expression gate, Set<String> unanswered) {
        unanswered.addAll(observations.missing(gate));
    }
}
