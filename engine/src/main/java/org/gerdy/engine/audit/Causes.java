package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicPlanner;
import org.gerdy.engine.reasoning.LogicReasoner;

/**
 * Which single change brings a changed conclusion about: each change is tried alone on the earlier knowledge base. What
 * cannot be tried alone, such as a prior, is named when it bears on the conclusion and nothing else explains it.
 */
final class Causes {
    private static final Set<String> COMPUTED =
            Set.of("derived.csv", "red-flag-terms.csv", "terms.csv", "plan-terms.csv");
    private static final Set<String> ORDER = Set.of("leading", "first three", "referrals");
    private static final Set<String> ORDER_TABLES =
            Set.of("priors.csv", "conditions.csv", "guards.csv", "populations.csv");
    private static final Pattern FACTOR_TABLES = Pattern.compile("(factor.*|measures|measure-bands)\\.csv");
    private static final Pattern PLAN_TABLES =
            Pattern.compile("(plan-.*|run-steps|support-.*|stages|not-advised|course)\\.csv");

    private final KnowledgeBase after;
    private final PlanTables planAfter;
    private final KnowledgeBase ground;
    private final PlanTables planGround;
    private final List<KnowledgeChange> changes;
    private final Map<KnowledgeChange, Optional<ThreadLocal<Alone>>> alone = new LinkedHashMap<>();

    Causes(Gerdy before, Gerdy after, List<KnowledgeChange> changes) {
        this.after = after.knowledge();
        this.planAfter = after.careTables().plan();
        this.changes = changes;
        this.ground = withNewWords(before.knowledge());
        this.planGround = before.careTables().plan();
        for (KnowledgeChange change : changes) {
            Optional<PlanTables> plan = item(change);
            Optional<KnowledgeBase> base = plan.isPresent() ? Optional.of(ground) : tried(change);
            alone.put(
                    change,
                    base.map(tried -> ThreadLocal.withInitial(() -> new Alone(tried, plan.orElse(planGround)))));
        }
    }

    /** The earlier knowledge base with one change. */
    private static final class Alone {
        private final KnowledgeBase knowledge;
        private final LogicReasoner reasoner;
        private final LogicPlanner planner;

        Alone(KnowledgeBase knowledge, PlanTables plan) {
            this.knowledge = knowledge;
            this.reasoner = new LogicReasoner(knowledge);
            this.planner = new LogicPlanner(knowledge, plan);
        }

        /** What it says; empty when the change leans on something the earlier knowledge base does not have. */
        Optional<Map<String, String>> said(AuditCase one) {
            try {
                Assessment assessment =
                        reasoner.assess(one.caseFile(), one.caseFile().latest());
                return Optional.of(
                        planner.notCovered().isEmpty()
                                ? Conclusions.of(
                                        assessment, planner.plan(assessment, one.observations(knowledge.terms())))
                                : Conclusions.of(assessment));
            } catch (IllegalArgumentException | KnowledgeException e) {
                return Optional.empty();
            }
        }
    }

    /** The earlier plan tables with a changed item. */
    private Optional<PlanTables> item(KnowledgeChange change) {
        return file(change).equals("plan-items.csv")
                ? Optional.of(planGround.withItem(
                        change.id(),
                        planAfter.items().stream()
                                .filter(item -> item.id().equals(change.id()))
                                .findFirst()))
                : Optional.empty();
    }

    /** New words change nothing until something uses them; a change that uses one needs it there. */
    private KnowledgeBase withNewWords(KnowledgeBase before) {
        KnowledgeBase ground = before;
        for (KnowledgeChange change : changes) {
            if (change.kind() == KnowledgeChange.Kind.ADDED) {
                Optional<KnowledgeBase> added = word(ground, change);
                ground = added.orElse(ground);
            }
        }
        return ground;
    }

    private Optional<KnowledgeBase> word(KnowledgeBase base, KnowledgeChange change) {
        if (COMPUTED.contains(file(change))) {
            return after.catalogue().computed(change.id()).map(one -> KnowledgeVariant.computed(base, one));
        }
        if (file(change).endsWith("findings.csv")) {
            return after.catalogue().finding(change.id()).map(one -> KnowledgeVariant.finding(base, one));
        }
        return Optional.empty();
    }

    private static String file(KnowledgeChange change) {
        return change.place().substring(change.place().lastIndexOf('/') + 1);
    }

    private Optional<KnowledgeBase> tried(KnowledgeChange change) {
        boolean removed = change.kind() == KnowledgeChange.Kind.REMOVED;
        String id = change.id();
        if (change.isRule()) {
            return removed
                    ? Optional.of(KnowledgeVariant.withoutRule(ground, id))
                    : Optional.of(KnowledgeVariant.rule(ground, after.rule(id)));
        }
        return switch (file(change)) {
            case "red-flags.csv" ->
                removed
                        ? Optional.of(KnowledgeVariant.withoutRow(ground, id))
                        : row(id).map(row -> KnowledgeVariant.row(ground, row));
            case "evidence.csv" -> evidence(id, removed);
            case "settings.csv" ->
                Optional.ofNullable(after.settings().all().get(id))
                        .map(value -> KnowledgeVariant.setting(ground, id, value));
            case "scores.csv" ->
                after.scores().stream()
                        .filter(score -> score.id().equals(id))
                        .findFirst()
                        .map(score -> KnowledgeVariant.score(ground, score));
            case "decision-rules.csv" ->
                after.decisionRules().stream()
                        .filter(rule -> rule.id().equals(id))
                        .findFirst()
                        .map(rule -> KnowledgeVariant.decisionRule(ground, rule));
            case "factors.csv" ->
                after.factors().factors().stream()
                        .filter(factor -> factor.id().equals(id))
                        .findFirst()
                        .map(factor -> KnowledgeVariant.factor(ground, factor));
            case "referrals.csv" ->
                Optional.ofNullable(after.referrals().get(id)).map(row -> KnowledgeVariant.referral(ground, row));
            default -> change.kind() == KnowledgeChange.Kind.CHANGED ? word(ground, change) : Optional.empty();
        };
    }

    private Optional<RedFlagRow> row(String id) {
        return after.redFlags().stream().filter(row -> row.id().equals(id)).findFirst();
    }

    private Optional<KnowledgeBase> evidence(String key, boolean removed) {
        String[] pair = key.split("/", 2);
        if (pair.length != 2) {
            return Optional.empty();
        }
        if (removed) {
            return Optional.of(KnowledgeVariant.withoutEvidence(ground, pair[0], pair[1]));
        }
        return after.evidence().about(pair[1]).stream()
                .filter(row -> row.finding().equals(pair[0]))
                .findFirst()
                .map((EvidenceRow row) -> KnowledgeVariant.evidence(ground, row));
    }

    /** For each conclusion that differs, the changes that alone would move it. */
    Map<String, List<String>> of(AuditCase one, Map<String, String> before, List<String> differing) {
        Map<String, List<String>> causes = new LinkedHashMap<>();
        Observations observations = one.observations(ground.terms());
        for (KnowledgeChange change : changes) {
            Optional<ThreadLocal<Alone>> variant = alone.getOrDefault(change, Optional.empty());
            if (variant.isEmpty() || !bears(change, observations)) {
                continue;
            }
            Optional<Map<String, String>> said = variant.get().get().said(one);
            for (String name : differing) {
                if (said.isPresent() && !said.get().getOrDefault(name, "").equals(before.getOrDefault(name, ""))) {
                    causes.computeIfAbsent(name, ignored -> new ArrayList<>()).add(change.name());
                }
            }
        }
        for (String name : differing) {
            if (!causes.containsKey(name)) {
                List<String> bearing = bearing(name);
                if (!bearing.isEmpty()) {
                    causes.put(name, bearing);
                }
            }
        }
        return causes;
    }

    /** What cannot be tried alone and bears on a conclusion by where it stands. */
    private List<String> bearing(String conclusion) {
        if (ORDER.contains(conclusion)) {
            return untried(change -> ORDER_TABLES.contains(file(change)));
        }
        if (conclusion.startsWith(Conclusions.FACTOR)) {
            return untried(change -> FACTOR_TABLES.matcher(file(change)).matches());
        }
        return conclusion.startsWith(Conclusions.PLAN)
                ? untried(change -> PLAN_TABLES.matcher(file(change)).matches())
                : List.of();
    }

    private List<String> untried(Predicate<KnowledgeChange> bears) {
        return changes.stream()
                .filter(change -> alone.getOrDefault(change, Optional.empty()).isEmpty())
                .filter(bears)
                .map(KnowledgeChange::name)
                .toList();
    }

    /** Evidence about findings this case does not hold cannot have moved it. */
    private boolean bears(KnowledgeChange change, Observations observations) {
        if (!file(change).equals("evidence.csv")) {
            return true;
        }
        String finding = change.id().split("/", 2)[0];
        return ground.catalogue().knows(finding)
                && ground.catalogue().askedBehind(finding).stream()
                        .anyMatch(asked -> observations.recorded(asked).isPresent());
    }
}
