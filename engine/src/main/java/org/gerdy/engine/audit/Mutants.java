package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.ReferralRow;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Every single slip in a knowledge base: each cut-off moved, each condition dropped or negated, each need forgotten, each
 * urgency lowered, each evidence row turned round.
 */
final class Mutants {
    private static final Pattern CONSTRAINT = Pattern.compile("\\w+\\s*==\\s*\"[^\"]*\"");
    private static final Pattern CANDIDATE = Pattern.compile("Candidate\\(([^)]*)\\)");
    private static final double NUDGE = 1.25;

    private final KnowledgeBase knowledge;
    private final Reading reading;
    private final List<Mutant> all = new ArrayList<>();

    private Mutants(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reading = new Reading(knowledge);
    }

    static List<Mutant> of(KnowledgeBase knowledge) {
        Mutants mutants = new Mutants(knowledge);
        knowledge.rules().values().forEach(mutants::rule);
        knowledge.redFlags().forEach(mutants::row);
        knowledge.referrals().values().forEach(mutants::referral);
        knowledge.catalogue().computed().forEach(mutants::computed);
        knowledge.catalogue().findings().forEach(mutants::gate);
        knowledge.evidence().rows().forEach(mutants::evidence);
        mutants.settings();
        return mutants.all;
    }

    private static BiPredicate<Observations, Supplier<Assessment>> fires(Expression before, Expression after) {
        return (observations, assessment) ->
                (before.in(observations) == Truth.TRUE) != (after.in(observations) == Truth.TRUE);
    }

    private static BiPredicate<Observations, Supplier<Assessment>> decided(Expression before, Expression after) {
        return (observations, assessment) -> before.in(observations) != after.in(observations);
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
                    (observations, assessment) -> logic.in(observations) == Truth.TRUE,
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
        BiPredicate<Observations, Supplier<Assessment>> any = (observations, assessment) -> true;
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

    private static RuleCard with(RuleCard rule, Optional<Expression> logic, String text) {
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
                        (observations, assessment) -> state(assessment.get(), row.id()) == FlagState.RAISED
                                || state(assessment.get(), row.id()) == FlagState.OPEN,
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
                    (observations, assessment) ->
                            state(assessment.get(), row.id()) == FlagState.OPEN && !observations.isKnown(need),
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
                (observations, assessment) -> gate.in(observations) != Truth.TRUE,
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

    private static FlagState state(Assessment assessment, String row) {
        return assessment.flags().stream()
                .flatMap(flag -> flag.rows().stream())
                .filter(one -> one.id().equals(row))
                .findFirst()
                .orElseThrow()
                .state();
    }

    private static Optional<Urgency> lowered(Urgency level) {
        List<Urgency> ladder = List.of(Urgency.values());
        int at = ladder.indexOf(level);
        return at == 0 ? Optional.empty() : Optional.of(ladder.get(at - 1));
    }

    private void referral(ReferralRow row) {
        lowered(row.urgency())
                .ifPresent(level -> all.add(new Mutant(
                        Mutant.Group.REFERRALS,
                        "referral " + row.id(),
                        "urgency lowered to " + level.word(),
                        () -> KnowledgeVariant.referral(
                                knowledge,
                                new ReferralRow(
                                        row.id(),
                                        row.label(),
                                        level,
                                        row.within(),
                                        row.action(),
                                        row.sources(),
                                        row.basis())),
                        (observations, assessment) -> assessment.get().referrals().stream()
                                .anyMatch(met -> met.id().equals(row.id())),
                        reading.ofRow(row.id()),
                        List.of())));
    }

    private void computed(ComputedFinding finding) {
        Set<String> rows = reading.rowsReading(finding.id());
        boolean referral = rows.stream().anyMatch(knowledge.referrals()::containsKey);
        Mutant.Group group =
                rows.stream().anyMatch(row -> !knowledge.referrals().containsKey(row))
                        ? Mutant.Group.RED_FLAGS
                        : referral ? Mutant.Group.REFERRALS : Mutant.Group.CANDIDATES;
        Set<Expression> conditions = new LinkedHashSet<>(List.of(finding.means()));
        rows.stream().limit(2).forEach(row -> conditions.addAll(reading.ofRow(row)));
        List<String> needs = rows.stream()
                .limit(2)
                .flatMap(row -> reading.needs(row).stream())
                .toList();
        for (ExpressionMutants.Changed changed : ExpressionMutants.of(finding.means())) {
            List<Expression> with = new ArrayList<>(conditions);
            with.add(changed.condition());
            all.add(new Mutant(
                    group,
                    "computed " + finding.id(),
                    changed.change(),
                    () -> KnowledgeVariant.computed(
                            knowledge,
                            new ComputedFinding(
                                    finding.id(),
                                    finding.label(),
                                    changed.condition(),
                                    finding.sources(),
                                    finding.basis())),
                    decided(finding.means(), changed.condition()),
                    with,
                    needs));
        }
    }

    private void gate(FindingDefinition finding) {
        if (finding.onlyIf().isEmpty()) {
            return;
        }
        Expression gate = finding.onlyIf().get();
        Set<String> rows = reading.rowsReading(finding.id());
        Set<Expression> conditions = new LinkedHashSet<>(List.of(gate));
        rows.stream().limit(2).forEach(row -> conditions.addAll(reading.ofRow(row)));
        List<String> needs = rows.stream()
                .limit(2)
                .flatMap(row -> reading.needs(row).stream())
                .toList();
        BiPredicate<Observations, Supplier<Assessment>> unasked = (observations, assessment) ->
                observations.recorded(finding.id()).isEmpty();
        if (rows.isEmpty()) {
            // Nothing that triages reads it: its gate only decides what an intake asks.
            return;
        }
        all.add(new Mutant(
                Mutant.Group.QUESTIONS,
                "question " + finding.id(),
                "dropped: " + gate,
                () -> KnowledgeVariant.finding(knowledge, Reading.with(finding, Optional.empty())),
                unasked.and((observations, assessment) -> gate.in(observations) != Truth.TRUE),
                List.copyOf(conditions),
                needs));
        for (ExpressionMutants.Changed changed : ExpressionMutants.of(gate)) {
            List<Expression> with = new ArrayList<>(conditions);
            with.add(changed.condition());
            all.add(new Mutant(
                    Mutant.Group.QUESTIONS,
                    "question " + finding.id(),
                    changed.change(),
                    () -> KnowledgeVariant.finding(knowledge, Reading.with(finding, Optional.of(changed.condition()))),
                    unasked.and(decided(gate, changed.condition())),
                    with,
                    needs));
        }
    }

    private void evidence(EvidenceRow row) {
        if (neutral(row.whenPresent()) && neutral(row.whenAbsent())) {
            return;
        }
        all.add(new Mutant(
                Mutant.Group.CANDIDATES,
                "evidence " + row.finding() + " for " + row.condition(),
                "direction flipped",
                () -> KnowledgeVariant.evidence(knowledge, flipped(row)),
                (observations, assessment) -> assessment.get().candidates().stream()
                        .filter(candidate -> candidate.condition().equals(row.condition()))
                        .anyMatch(candidate -> candidate.supporting().stream()
                                        .anyMatch(one -> one.finding().equals(row.finding()))
                                || candidate.opposing().stream()
                                        .anyMatch(one -> one.finding().equals(row.finding()))),
                List.of(new Expression.Is(row.finding(), "present")),
                List.of()));
    }

    /** A ratio of one has no direction to turn. */
    private static boolean neutral(Optional<EvidenceRow.Ratio> ratio) {
        return ratio.map(one -> one.value() == 1).orElse(true);
    }

    private static EvidenceRow flipped(EvidenceRow row) {
        return new EvidenceRow(
                row.finding(),
                row.condition(),
                row.whenPresent().map(Mutants::flipped),
                row.whenAbsent().map(Mutants::flipped),
                row.cluster(),
                row.origin(),
                row.basis(),
                row.sources(),
                row.note());
    }

    private static EvidenceRow.Ratio flipped(EvidenceRow.Ratio ratio) {
        return new EvidenceRow.Ratio(1 / ratio.value(), 1 / ratio.high(), 1 / ratio.low());
    }

    private void settings() {
        for (Map.Entry<String, Double> setting : knowledge.settings().all().entrySet()) {
            for (double value : new double[] {setting.getValue() * NUDGE, setting.getValue() / NUDGE}) {
                all.add(new Mutant(
                        Mutant.Group.CANDIDATES,
                        "setting " + setting.getKey(),
                        "moved: " + setting.getValue() + " to " + value,
                        () -> KnowledgeVariant.setting(knowledge, setting.getKey(), value),
                        (observations, assessment) -> true,
                        List.of(),
                        List.of()));
            }
        }
    }
}
