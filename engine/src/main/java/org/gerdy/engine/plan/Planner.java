package org.gerdy.engine.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.gerdy.engine.fact.PlanChoice;
import org.gerdy.engine.fact.StageSign;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Makes a plan from what rules chose. No item whose contraindication is there, or has not been asked about, comes
 * through; above the lowest two levels of urgency, or before screening is complete, no item comes through at all.
 */
public final class Planner {
    private final PlanTables tables;

    /** A planner over these tables. */
    public Planner(PlanTables tables) {
        this.tables = tables;
    }

    /** The earliest stage that a rule points at. Throws {@link KnowledgeException} when no rule points at one. */
    public String stage(Collection<StageSign> signs) {
        return tables.stages().stream()
                .filter(stage -> signs.stream().anyMatch(sign -> sign.stage().equals(stage)))
                .findFirst()
                .orElseThrow(() -> new KnowledgeException(
                        "No rule chose a stage; the rules need one for a patient nothing is known of."));
    }

    /** Why only interim advice may be given; empty when a plan with items may be. */
    public Optional<String> interimOnly(Situation situation) {
        Optional<Urgency> level = situation.triage().level();
        if (level.isPresent() && level.get().compareTo(Urgency.ROUTINE_REFERRAL) > 0) {
            return Optional.of("Urgency is " + level.get().word() + ".");
        }
        if (!situation.triage().complete() || level.isEmpty()) {
            return Optional.of("Screening is not complete.");
        }
        return Optional.empty();
    }

    /**
     * The plan for this situation.
     *
     * @param stage a stage of the stages table
     * @param choices what rules chose; the order does not matter
     */
    public Plan plan(Situation situation, String stage, Collection<PlanChoice> choices) {
        Optional<String> interim = interimOnly(situation);
        return interim.<Plan>map(because -> new Plan.Interim(because, advice(situation), Optional.empty()))
                .orElseGet(() -> active(situation, stage, choices));
    }

    /** What the urgency and the flags ask for, before what our own open questions ask for. */
    private List<InterimAdvice> advice(Situation situation) {
        Optional<Urgency> level = situation.triage().level();
        return tables.interim().stream()
                .filter(row -> row.flag().isEmpty() || situation.raised(row.flag()))
                .filter(row -> (!row.flag().isEmpty() && row.urgencies().isEmpty())
                        || level.map(row.urgencies()::contains).orElse(false)
                        || (row.whileOpen() && !situation.triage().complete()))
                .sorted(Comparator.comparing(
                        row -> row.flag().isEmpty() && row.urgencies().isEmpty()))
                .toList();
    }

    private Plan active(Situation situation, String stage, Collection<PlanChoice> choices) {
        Map<String, TreeSet<String>> rules = new TreeMap<>();
        for (PlanChoice choice : choices) {
            tables.item(choice.item());
            rules.computeIfAbsent(choice.item(), ignored -> new TreeSet<>()).add(choice.rule());
        }
        List<Plan.Chosen> given = new ArrayList<>();
        List<Plan.HeldBack> held = new ArrayList<>();
        for (PlanItem item : tables.items()) {
            TreeSet<String> by = rules.get(item.id());
            if (by == null) {
                continue;
            }
            Optional<Objection> objection = objection(item, situation, stage);
            if (objection.isEmpty()) {
                given.add(new Plan.Chosen(item, List.copyOf(by)));
            } else {
                held.add(new Plan.HeldBack(
                        item,
                        List.copyOf(by),
                        objection.get().reason(),
                        objection.get().about()));
            }
        }
        return new Plan.Active(
                stage, List.copyOf(given), List.copyOf(held), notAdvised(situation, stage), Optional.empty());
    }

    private List<NotAdvised> notAdvised(Situation situation, String stage) {
        return tables.notAdvised().stream()
                .filter(row -> row.stages().isEmpty() || row.stages().contains(stage))
                .filter(row -> row.conditions().isEmpty()
                        || row.conditions().stream().anyMatch(situation.candidates()::contains))
                .toList();
    }

    private record Objection(Plan.Reason reason, List<String> about) {}

    private static Optional<Objection> objection(PlanItem item, Situation situation, String stage) {
        PlanItem.Limits limits = item.limits();
        List<String> flags =
                limits.flags().stream().filter(flag -> !situation.cleared(flag)).toList();
        if (!flags.isEmpty()) {
            return Optional.of(new Objection(Plan.Reason.RED_FLAG, flags));
        }
        List<String> conditions = limits.conditions().stream()
                .filter(situation.candidates()::contains)
                .toList();
        if (!conditions.isEmpty()) {
            return Optional.of(new Objection(Plan.Reason.CANDIDATE, conditions));
        }
        if (limits.contraindication().isPresent()) {
            Expression expression = limits.contraindication().get();
            Truth truth = expression.in(situation.answers());
            if (truth != Truth.FALSE) {
                return Optional.of(new Objection(
                        truth == Truth.TRUE ? Plan.Reason.CONTRAINDICATED : Plan.Reason.NOT_ASKED,
                        behind(expression, situation, truth)));
            }
        }
        if (!item.conditions().isEmpty() && item.conditions().stream().noneMatch(situation.candidates()::contains)) {
            return Optional.of(new Objection(Plan.Reason.OTHER_CONDITION, item.conditions()));
        }
        return item.fits(stage) ? Optional.empty() : Optional.of(new Objection(Plan.Reason.STAGE, List.of(stage)));
    }

    /** The findings whose atoms hold, or are unknown, in the order written. */
    private static List<String> behind(Expression expression, Situation situation, Truth truth) {
        List<String> ids = new ArrayList<>();
        expression.atoms(atom -> {
            if (atom.in(situation.answers()) == truth && !ids.contains(atom.finding())) {
                ids.add(atom.finding());
            }
        });
        return ids.isEmpty() ? List.copyOf(expression.findings()) : List.copyOf(ids);
    }
}
