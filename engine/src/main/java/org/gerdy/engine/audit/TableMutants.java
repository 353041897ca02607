package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.ReferralRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicPlanner;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Single slips in the tables: thresholds, computed findings, when to ask, evidence, settings, guards. */
final class TableMutants {
    private static final double NUDGE = 1.25;

    private final KnowledgeBase knowledge;
    private final Reading reading;
    private final Set<String> readForPlan;
    private final Set<String> readElsewhere;
    private final List<Mutant> all;

    private TableMutants(KnowledgeBase knowledge, Reading reading, PlanTables plan, List<Mutant> all) {
        this.knowledge = knowledge;
        this.reading = reading;
        this.all = all;
        Set<String> forPlan = new LinkedHashSet<>();
        Set<String> elsewhere = new LinkedHashSet<>();
        knowledge.rules().values().forEach(rule -> (LogicPlanner.plans(rule) ? forPlan : elsewhere)
                .addAll(rule.reads()));
        plan.items()
                .forEach(item ->
                        item.limits().contraindication().ifPresent(forbids -> forPlan.addAll(forbids.findings())));
        knowledge.evidence().rows().forEach(row -> elsewhere.add(row.finding()));
        this.readForPlan = behind(forPlan);
        this.readElsewhere = behind(elsewhere);
    }

    /** Adds every slip in the tables. */
    static void add(KnowledgeBase knowledge, PlanTables plan, Reading reading, List<Mutant> all) {
        TableMutants mutants = new TableMutants(knowledge, reading, plan, all);
        knowledge.referrals().values().forEach(mutants::referral);
        knowledge.catalogue().computed().forEach(mutants::computed);
        knowledge.catalogue().findings().forEach(mutants::gate);
        knowledge.evidence().rows().forEach(mutants::evidence);
        mutants.settings();
        knowledge.conditions().values().forEach(mutants::guards);
        InstrumentMutants.add(knowledge, all);
        FactorMutants.add(knowledge, all);
        PlanMutants.add(knowledge, plan, reading, all);
    }

    /** A condition that must not be missed is not called unlikely while a flag that guards it is not cleared. */
    private void guards(Condition condition) {
        for (String flag : condition.flags()) {
            List<String> fewer = new ArrayList<>(condition.flags());
            fewer.remove(flag);
            List<RedFlagRow> rows = knowledge.rowsByFlag().getOrDefault(flag, List.of());
            all.add(new Mutant(
                    Mutant.Group.CANDIDATES,
                    "guard of " + condition.id(),
                    "dropped: " + flag,
                    () -> KnowledgeVariant.condition(knowledge, condition.guardedBy(fewer)),
                    look -> look.assessment().flag(flag).state() != FlagState.CLEARED,
                    rows.stream()
                            .flatMap(row -> reading.ofRow(row.id()).stream())
                            .toList(),
                    rows.stream().flatMap(row -> row.needs().stream()).toList()));
        }
    }

    private void referral(ReferralRow row) {
        Mutants.lowered(row.urgency())
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
                        look -> look.meets(row.id()),
                        reading.ofRow(row.id()),
                        List.of())));
    }

    /** The findings, and the computed ones they rest on. */
    private Set<String> behind(Set<String> findings) {
        Set<String> behind = new LinkedHashSet<>();
        findings.forEach(finding -> behind(finding, behind));
        return behind;
    }

    private void behind(String finding, Set<String> behind) {
        if (behind.add(finding)) {
            knowledge.catalogue().computed(finding).ifPresent(computed -> computed.means()
                    .findings()
                    .forEach(inner -> behind(inner, behind)));
        }
    }

    private Mutant.Group group(String computed, Set<String> rows) {
        if (rows.stream().anyMatch(row -> !knowledge.referrals().containsKey(row))) {
            return Mutant.Group.RED_FLAGS;
        }
        if (!rows.isEmpty()) {
            return Mutant.Group.REFERRALS;
        }
        return readForPlan.contains(computed) && !readElsewhere.contains(computed)
                ? Mutant.Group.PLAN
                : Mutant.Group.CANDIDATES;
    }

    private void computed(ComputedFinding finding) {
        Set<String> rows = reading.rowsReading(finding.id());
        Mutant.Group group = group(finding.id(), rows);
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
                    Mutants.decided(finding.means(), changed.condition()),
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
        Predicate<Look> unasked =
                look -> look.observations().recorded(finding.id()).isEmpty();
        if (rows.isEmpty()) {
            // Nothing that triages reads it: its gate only decides what an intake asks.
            return;
        }
        all.add(new Mutant(
                Mutant.Group.QUESTIONS,
                "question " + finding.id(),
                "dropped: " + gate,
                () -> KnowledgeVariant.finding(knowledge, Reading.with(finding, Optional.empty())),
                unasked.and(look -> gate.in(look.observations()) != Truth.TRUE),
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
                    unasked.and(Mutants.decided(gate, changed.condition())),
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
                look -> look.speaks(row.finding(), row.condition()),
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
                row.whenPresent().map(TableMutants::flipped),
                row.whenAbsent().map(TableMutants::flipped),
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
                        look -> true,
                        List.of(),
                        List.of()));
            }
        }
    }
}
