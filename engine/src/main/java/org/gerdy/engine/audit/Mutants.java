package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Every single slip in a knowledge base: each cut-off moved, each condition dropped or negated, each need forgotten, each
 * urgency lowered, each evidence row turned round.
 */
public final class Mutants {
    private static final Pattern CONSTRAINT = Pattern.compile("\\w+\\s*==\\s*\"[^\"]*\"");
    private static final Pattern CANDIDATE = Pattern.compile("Candidate\\(([^)]*)\\)");

    private final KnowledgeBase knowledge;
    private final Reading reading;
    private final List<Mutant> all = new ArrayList<>();

    private Mutants(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reading = new Reading(knowledge);
    }

    public static List<Mutant> of(KnowledgeBase knowledge, PlanTables plan) {
        Mutants mutants = new Mutants(knowledge);
        List<String> elsewhere = new LogicReasoner(knowledge).notCovered();
        knowledge.rules().values().stream()
                .filter(rule -> !elsewhere.contains(rule.id()))
                .forEach(mutants::rule);
        knowledge.redFlags().forEach(mutants::row);
        TableMutants.add(knowledge, plan, mutants.reading, mutants.all);
        return mutants.all;
    }

    private static Predicate<Look> fires(Expression before, Expression after) {
        return look -> (before.in(look.observations()) == Truth.TRUE) != (after.in(look.observations()) == Truth.TRUE);
    }

    static Predicate<Look> decided(Expression before, Expression after) {
        return look -> before.in(look.observations()) != after.in(look.observations());
    }

    private void rule(RuleCard rule) {
        Mutant.Group group = knowledge.referrals().containsKey(rule.row())
                ? Mutant.Group.REFERRALS
                : rule.row().isEmpty() ? Mutant.Group.CANDIDATES : Mutant.Group.RED_FLAGS;
        String place = "rule " + rule.id();
        List<Expression> conditions = reading.ofRow(rule.row(), rule);
        if (rule.logic().isPresent()) {
            Expression logic = rule.logic().get();
            all.add(new Mutant(
                    group,
                    place,
                    "rule dropped",
                    () -> KnowledgeVariant.withoutRule(knowledge, rule.id()),
                    look -> logic.in(look.observations()) == Truth.TRUE,
                    conditions,
                    List.of()));
            for (ExpressionMutants.Changed changed : ExpressionMutants.of(logic)) {
                List<Expression> with = new ArrayList<>(conditions);
                with.add(changed.condition());
                all.add(new Mutant(
                        group,
                        place,
                        changed.change(),
                        () -> KnowledgeVariant.rule(
                                knowledge, with(rule, Optional.of(changed.condition()), rule.text())),
                        fires(logic, changed.condition()),
                        with,
                        List.of()));
            }
        } else if (rule.text().contains("Candidate(")) {
            candidateRule(rule, group, place);
        }
    }

    /** A rule over candidates: its constraints dropped and turned round in its text. */
    private void candidateRule(RuleCard rule, Mutant.Group group, String place) {
        Matcher pattern = CANDIDATE.matcher(rule.text());
        if (!pattern.find()) {
            return;
        }
        Predicate<Look> any = look -> true;
        all.add(new Mutant(
                group,
                place,
                "rule dropped",
                () -> KnowledgeVariant.withoutRule(knowledge, rule.id()),
                any,
                List.of(),
                List.of()));
        Matcher constraint = CONSTRAINT.matcher(pattern.group(1));
        while (constraint.find()) {
            String text = constraint.group();
            for (String[] slip : new String[][] {
                {"dropped: " + text, "$dropped : condition"}, {"negated: " + text, text.replace("==", "!=")}
            }) {
                all.add(new Mutant(
                        group,
                        place,
                        slip[0],
                        () -> KnowledgeVariant.rule(
                                knowledge,
                                with(rule, Optional.empty(), rule.text().replace(text, slip[1]))),
                        any,
                        List.of(),
                        List.of()));
            }
        }
    }

    static RuleCard with(RuleCard rule, Optional<Expression> logic, String text) {
        return new RuleCard(
                rule.id(),
                rule.name(),
                rule.file(),
                rule.line(),
                rule.row(),
                rule.sources(),
                rule.basis(),
                rule.because(),
                rule.reads(),
                logic,
                text);
    }

    private void row(RedFlagRow row) {
        String place = "row " + row.id();
        List<Expression> conditions = reading.ofRow(row.id());
        lowered(row.urgency())
                .ifPresent(level -> all.add(new Mutant(
                        Mutant.Group.RED_FLAGS,
                        place,
                        "urgency lowered to " + level.word(),
                        () -> KnowledgeVariant.row(
                                knowledge, with(row, level, row.appliesIf(), row.trigger(), row.needs())),
                        look -> look.row(row.id()) == FlagState.RAISED || look.row(row.id()) == FlagState.OPEN,
                        conditions,
                        row.needs())));
        row.appliesIf()
                .ifPresent(gate -> slips(
                        place + ": who it is about",
                        gate,
                        conditions,
                        row.needs(),
                        changed -> with(row, row.urgency(), changed, row.trigger(), row.needs())));
        row.trigger()
                .ifPresent(trigger -> slips(
                        place + ": entry question",
                        trigger,
                        conditions,
                        row.needs(),
                        changed -> with(row, row.urgency(), row.appliesIf(), changed, row.needs())));
        for (String need : row.needs()) {
            List<String> fewer = new ArrayList<>(row.needs());
            fewer.remove(need);
            all.add(new Mutant(
                    Mutant.Group.RED_FLAGS,
                    place,
                    "need forgotten: " + need,
                    () -> KnowledgeVariant.row(
                            knowledge, with(row, row.urgency(), row.appliesIf(), row.trigger(), fewer)),
                    look -> look.row(row.id()) == FlagState.OPEN
                            && !look.observations().isKnown(need),
                    conditions,
                    row.needs()));
        }
    }

    private void slips(
            String place,
            Expression gate,
            List<Expression> conditions,
            List<String> needs,
            Function<Optional<Expression>, RedFlagRow> made) {
        all.add(new Mutant(
                Mutant.Group.RED_FLAGS,
                place,
                "dropped: " + gate,
                () -> KnowledgeVariant.row(knowledge, made.apply(Optional.empty())),
                look -> gate.in(look.observations()) != Truth.TRUE,
                conditions,
                needs));
        for (ExpressionMutants.Changed changed : ExpressionMutants.of(gate)) {
            List<Expression> with = new ArrayList<>(conditions);
            with.add(changed.condition());
            all.add(new Mutant(
                    Mutant.Group.RED_FLAGS,
                    place,
                    changed.change(),
                    () -> KnowledgeVariant.row(knowledge, made.apply(Optional.of(changed.condition()))),
                    decided(gate, changed.condition()),
                    with,
                    needs));
        }
    }

    private static RedFlagRow with(
            RedFlagRow row,
            Urgency urgency,
            Optional<Expression> appliesIf,
            Optional<Expression> trigger,
            List<String> needs) {
        return new RedFlagRow(
                row.flag(),
                row.id(),
                row.label(),
                urgency,
                row.within(),
                appliesIf,
                row.raisedWhen(),
                trigger,
                List.copyOf(needs),
                row.action(),
                row.rationale(),
                row.sources(),
                row.basis(),
                row.note());
    }

    static Optional<Urgency> lowered(Urgency level) {
        List<Urgency> ladder = List.of(Urgency.values());
        int at = ladder.indexOf(level);
        return at == 0 ? Optional.empty() : Optional.of(ladder.get(at - 1));
    }
}
