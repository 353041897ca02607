package org.gerdy.engine.audit;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.gerdy.engine.knowledge.DecisionRule;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.knowledge.ScoreDefinition;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Points;

/** Single slips in the published scores and decision rules: items, points, bands, criteria, who they are for. */
final class InstrumentMutants {
    private final KnowledgeBase knowledge;
    private final List<Mutant> all;

    private InstrumentMutants(KnowledgeBase knowledge, List<Mutant> all) {
        this.knowledge = knowledge;
        this.all = all;
    }

    /** Adds every slip in them. */
    static void add(KnowledgeBase knowledge, List<Mutant> all) {
        InstrumentMutants mutants = new InstrumentMutants(knowledge, all);
        knowledge.scores().forEach(mutants::score);
        knowledge.decisionRules().forEach(mutants::decisionRule);
    }

    private void score(ScoreDefinition score) {
        String place = "score " + score.id();
        List<Expression> conditions = conditions(
                score.points().items().stream().map(Points.Item::condition), score.appliesIf(), score.excludedIf());
        List<Points.Item> items = score.points().items();
        for (int i = 0; i < items.size(); i++) {
            int at = i;
            Points.Item item = items.get(at);
            for (double points : new double[] {item.points() - 1, item.points() + 1}) {
                slip(
                        place,
                        "points moved: " + item.points() + " to " + points + " for " + item.condition(),
                        conditions,
                        with(score, ExpressionMutants.replaced(items, at, new Points.Item(points, item.condition()))));
            }
        }
        ExpressionMutants.points(
                score.points(),
                (change, points) -> slip(
                        place,
                        change,
                        Stream.concat(
                                        conditions.stream(),
                                        points.items().stream().map(Points.Item::condition))
                                .toList(),
                        with(score, points, score.bands(), score.appliesIf(), score.excludedIf())));
        for (int i = 1; i < score.bands().size(); i++) {
            ScoreDefinition.Band below = score.bands().get(i - 1);
            ScoreDefinition.Band above = score.bands().get(i);
            double step = above.low() - below.high();
            for (double by : new double[] {-step, step}) {
                List<ScoreDefinition.Band> bands = ExpressionMutants.replaced(
                        ExpressionMutants.replaced(
                                score.bands(),
                                i - 1,
                                new ScoreDefinition.Band(below.name(), below.low(), below.high() + by)),
                        i,
                        new ScoreDefinition.Band(above.name(), above.low() + by, above.high()));
                slip(
                        place,
                        "cut-off moved: " + above.name() + " from " + above.low() + " to " + (above.low() + by),
                        conditions,
                        with(score, score.points(), bands, score.appliesIf(), score.excludedIf()));
            }
        }
        gate(
                score.appliesIf(),
                (change, gate) -> slip(
                        place + ": when to run it",
                        change,
                        and(conditions, gate),
                        with(score, score.points(), score.bands(), gate, score.excludedIf())));
        gate(
                score.excludedIf(),
                (change, gate) -> slip(
                        place + ": outside it",
                        change,
                        and(conditions, gate),
                        with(score, score.points(), score.bands(), score.appliesIf(), gate)));
    }

    private void decisionRule(DecisionRule rule) {
        String place = "decision rule " + rule.id();
        List<Expression> conditions = conditions(
                rule.criteria().stream().map(DecisionRule.Criterion::met), rule.appliesIf(), rule.excludedIf());
        List<DecisionRule.Criterion> criteria = rule.criteria();
        for (int i = 0; i < criteria.size(); i++) {
            int at = i;
            DecisionRule.Criterion criterion = criteria.get(at);
            if (criteria.size() > 1) {
                slip(
                        place,
                        "dropped: " + criterion.name(),
                        conditions,
                        with(rule, ExpressionMutants.without(criteria, at), rule.appliesIf(), rule.excludedIf()));
            }
            for (ExpressionMutants.Changed changed : ExpressionMutants.of(criterion.met())) {
                slip(
                        place,
                        changed.change(),
                        and(conditions, changed.condition()),
                        with(
                                rule,
                                ExpressionMutants.replaced(
                                        criteria,
                                        at,
                                        new DecisionRule.Criterion(criterion.name(), changed.condition())),
                                rule.appliesIf(),
                                rule.excludedIf()));
            }
        }
        gate(
                rule.appliesIf(),
                (change, gate) -> slip(
                        place + ": who it is about",
                        change,
                        and(conditions, gate),
                        with(rule, criteria, gate, rule.excludedIf())));
        gate(
                rule.excludedIf(),
                (change, gate) -> slip(
                        place + ": outside it",
                        change,
                        and(conditions, gate),
                        with(rule, criteria, rule.appliesIf(), gate)));
    }

    private interface Slipped {
        void slip(String change, Optional<Expression> gate);
    }

    /** The gate dropped, and every single slip in it. */
    private static void gate(Optional<Expression> gate, Slipped slipped) {
        gate.ifPresent(condition -> {
            slipped.slip("dropped: " + condition, Optional.empty());
            ExpressionMutants.of(condition)
                    .forEach(changed -> slipped.slip(changed.change(), Optional.of(changed.condition())));
        });
    }

    private void slip(String place, String change, List<Expression> conditions, ScoreDefinition changed) {
        slip(place, change, conditions, base -> KnowledgeVariant.score(base, changed));
    }

    private void slip(String place, String change, List<Expression> conditions, DecisionRule changed) {
        slip(place, change, conditions, base -> KnowledgeVariant.decisionRule(base, changed));
    }

    private void slip(
            String place, String change, List<Expression> conditions, Function<KnowledgeBase, KnowledgeBase> variant) {
        all.add(new Mutant(
                Mutant.Group.INSTRUMENTS,
                place,
                change,
                () -> variant.apply(knowledge),
                look -> conditions.stream()
                        .flatMap(condition -> condition.findings().stream())
                        .anyMatch(look.observations()::isKnown),
                conditions,
                List.of()));
    }

    private static List<Expression> conditions(
            Stream<Expression> parts, Optional<Expression> appliesIf, Optional<Expression> excludedIf) {
        return Stream.of(parts, appliesIf.stream(), excludedIf.stream())
                .flatMap(part -> part)
                .toList();
    }

    private static List<Expression> and(List<Expression> conditions, Expression more) {
        return and(conditions, Optional.of(more));
    }

    private static List<Expression> and(List<Expression> conditions, Optional<Expression> more) {
        return Stream.concat(conditions.stream(), more.stream()).toList();
    }

    private static ScoreDefinition with(ScoreDefinition score, List<Points.Item> items) {
        return with(score, new Points(items), score.bands(), score.appliesIf(), score.excludedIf());
    }

    private static ScoreDefinition with(
            ScoreDefinition score,
            Points points,
            List<ScoreDefinition.Band> bands,
            Optional<Expression> appliesIf,
            Optional<Expression> excludedIf) {
        return new ScoreDefinition(
                score.id(),
                score.label(),
                points,
                score.itemLabels(),
                bands,
                appliesIf,
                excludedIf,
                score.sources(),
                score.basis(),
                score.note());
    }

    private static DecisionRule with(
            DecisionRule rule,
            List<DecisionRule.Criterion> criteria,
            Optional<Expression> appliesIf,
            Optional<Expression> excludedIf) {
        return new DecisionRule(
                rule.id(),
                rule.label(),
                appliesIf,
                excludedIf,
                criteria,
                rule.positiveMeans(),
                rule.negativeMeans(),
                rule.notApplicableMeans(),
                rule.sources(),
                rule.basis());
    }
}
