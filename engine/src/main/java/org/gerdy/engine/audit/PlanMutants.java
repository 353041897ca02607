package org.gerdy.engine.audit;

import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gerdy.engine.fact.PlanChoice;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicPlanner;
import org.gerdy.engine.reasoning.WrittenPattern;
import org.gerdy.engine.vocabulary.Urgency;

/** Single slips in the plan: its rules as written, and what each item is for and what forbids it. */
final class PlanMutants {
    private static final String NOT = "not ";
    private static final Pattern ONE_OF = Pattern.compile("\\(\\s*\"[^()]*\\)");
    private static final Pattern QUOTED = Pattern.compile("\"[^\"]*\"");

    private final KnowledgeBase knowledge;
    private final Reading reading;
    private final List<Mutant> all;

    private PlanMutants(KnowledgeBase knowledge, Reading reading, List<Mutant> all) {
        this.knowledge = knowledge;
        this.reading = reading;
        this.all = all;
    }

    /** Adds every slip in the plan. */
    static void add(KnowledgeBase knowledge, PlanTables tables, Reading reading, List<Mutant> all) {
        PlanMutants mutants = new PlanMutants(knowledge, reading, all);
        List<String> elsewhere = new LogicPlanner(knowledge, tables).notCovered();
        knowledge.rules().values().stream()
                .filter(LogicPlanner::plans)
                .filter(rule -> !elsewhere.contains(rule.id()))
                .forEach(mutants::rule);
        tables.items().forEach(mutants::item);
    }

    private void rule(RuleCard rule) {
        List<Expression> conditions = LogicPlanner.findings(rule);
        String place = "rule " + rule.id();
        all.add(new Mutant(
                Mutant.Group.PLAN,
                place,
                "rule dropped",
                () -> KnowledgeVariant.withoutRule(knowledge, rule.id()),
                look -> true,
                conditions,
                List.of()));
        BiConsumer<String, String> slip = (change, text) -> all.add(new Mutant(
                Mutant.Group.PLAN,
                place,
                change,
                () -> KnowledgeVariant.rule(knowledge, Mutants.with(rule, rule.logic(), text)),
                look -> true,
                conditions,
                List.of()));
        for (String pattern : LogicPlanner.patterns(rule)) {
            Slips slips = new Slips(rule.text(), pattern, slip);
            slips.change("dropped", pattern, "");
            slips.change(
                    "negated",
                    pattern,
                    pattern.startsWith(NOT)
                            ? pattern.substring(NOT.length())
                            : NOT + pattern.replaceFirst("^exists ", ""));
            constraints(slips);
        }
        List<String> choices = LogicPlanner.CHOICE
                .matcher(rule.text())
                .results()
                .map(MatchResult::group)
                .toList();
        if (choices.size() > 1) {
            choices.forEach(choice -> slip.accept(
                    "dropped: " + choice + ")",
                    rule.text().replace(choice, choice.replaceAll("\\w+\\.\\w+\\(", "dropped("))));
        }
    }

    /** A rule with one pattern to change. */
    private record Slips(String rule, String pattern, BiConsumer<String, String> slip) {
        void change(String how, String what, String with) {
            slip.accept(how + ": " + what, rule.replace(pattern, pattern.replace(what, with)));
        }
    }

    /** Each field left out where another is left, and each of several values. */
    private static void constraints(Slips slips) {
        List<String> constraints = WrittenPattern.constraints(slips.pattern());
        if (constraints.size() > 1
                && WrittenPattern.of(slips.pattern())
                        .filter(one -> !one.ofFinding())
                        .isPresent()) {
            for (int i = 0; i < constraints.size(); i++) {
                slips.slip()
                        .accept(
                                "dropped: " + constraints.get(i),
                                slips.rule()
                                        .replace(
                                                WrittenPattern.inside(slips.pattern()),
                                                String.join(", ", ExpressionMutants.without(constraints, i))));
            }
        }
        for (String constraint : constraints) {
            Optional<String> several =
                    ONE_OF.matcher(constraint).results().map(MatchResult::group).findFirst();
            List<String> values = several.stream()
                    .flatMap(list -> QUOTED.matcher(list).results().map(MatchResult::group))
                    .toList();
            for (int i = 0; i < values.size(); i++) {
                String fewer = "(" + String.join(", ", ExpressionMutants.without(values, i)) + ")";
                slips.slip()
                        .accept(
                                "dropped: " + values.get(i) + " of " + constraint,
                                slips.rule()
                                        .replace(
                                                slips.pattern(),
                                                slips.pattern().replace(several.orElseThrow(), fewer)));
            }
        }
    }

    private void item(PlanItem item) {
        PlanItem.Limits limits = item.limits();
        limits.contraindication().ifPresent(forbids -> {
            slip(
                    item,
                    "dropped: " + forbids,
                    List.of(forbids),
                    forbidden(item, Optional.empty(), limits.flags(), limits.conditions()));
            ExpressionMutants.of(forbids)
                    .forEach(changed -> slip(
                            item,
                            changed.change(),
                            List.of(forbids, changed.condition()),
                            forbidden(item, Optional.of(changed.condition()), limits.flags(), limits.conditions())));
        });
        each(limits.flags(), (flag, fewer) -> {
            List<RedFlagRow> rows = withPlan(flag);
            if (!rows.isEmpty()) {
                slip(
                        item,
                        "flag forgotten: " + flag,
                        rows.stream()
                                .flatMap(row -> reading.ofRow(row.id()).stream())
                                .toList(),
                        forbidden(item, limits.contraindication(), fewer, limits.conditions()));
            }
        });
        each(
                limits.conditions(),
                (condition, fewer) -> slip(
                        item,
                        "condition forgotten: " + condition,
                        List.of(),
                        forbidden(item, limits.contraindication(), limits.flags(), fewer)));
        each(
                item.stages(),
                (stage, fewer) ->
                        slip(item, "stage dropped: " + stage, List.of(), with(item, fewer, item.conditions(), limits)));
        each(
                item.conditions(),
                (condition, fewer) -> slip(
                        item,
                        "for condition dropped: " + condition,
                        List.of(),
                        with(item, item.stages(), fewer, limits)));
    }

    /** Each of a list, with the list that lacks it. */
    private static void each(List<String> all, BiConsumer<String, List<String>> lacking) {
        for (int i = 0; i < all.size(); i++) {
            lacking.accept(all.get(i), ExpressionMutants.without(all, i));
        }
    }

    /** The rows of a flag that leave room for a plan; while another is raised there is interim advice only. */
    private List<RedFlagRow> withPlan(String flag) {
        return knowledge.rowsByFlag().getOrDefault(flag, List.of()).stream()
                .filter(row -> row.urgency().compareTo(Urgency.ROUTINE_REFERRAL) <= 0)
                .toList();
    }

    private static PlanItem forbidden(
            PlanItem item, Optional<Expression> by, List<String> flags, List<String> conditions) {
        return with(item, item.stages(), item.conditions(), new PlanItem.Limits(by, flags, conditions));
    }

    private void slip(PlanItem item, String change, List<Expression> conditions, PlanItem changed) {
        all.add(new Mutant(
                Mutant.Group.PLAN,
                "plan item " + item.id(),
                change,
                () -> knowledge,
                plan -> plan.withItem(item.id(), Optional.of(changed)),
                look -> true,
                Stream.concat(conditions.stream(), choosing(item)).toList(),
                List.of()));
    }

    private Stream<Expression> choosing(PlanItem item) {
        return knowledge.rules().values().stream()
                .filter(rule -> LogicPlanner.chosen(rule).stream()
                        .anyMatch(one -> one instanceof PlanChoice choice
                                && choice.item().equals(item.id())))
                .flatMap(rule -> LogicPlanner.findings(rule).stream());
    }

    private static PlanItem with(PlanItem item, List<String> stages, List<String> conditions, PlanItem.Limits limits) {
        return new PlanItem(
                item.id(),
                item.label(),
                item.category(),
                stages,
                conditions,
                item.factors(),
                item.dose(),
                item.progression(),
                item.stop(),
                limits,
                item.evidence(),
                item.patientWords(),
                item.drawing(),
                item.opens(),
                item.note());
    }
}
