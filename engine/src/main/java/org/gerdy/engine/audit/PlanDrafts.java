package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.fact.StageSign;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicPlanner;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.FindingDefinition;

/**
 * Finds patients whose plan comes out otherwise under a slip. A plan needs a finished screening, so the search starts from
 * cases that have one and changes a few of their answers; each patient kept tells slips that no earlier one told.
 */
final class PlanDrafts {
    private static final int TRIES = 30_000;
    private static final int QUIET = 5_000;
    private static final int CHANGES = 5;
    private static final int STEPS = 8;

    private final KnowledgeBase knowledge;
    private final PlanTables tables;
    private final LogicReasoner reasoner;
    private final LogicPlanner planner;
    private final ClashFinder clashes;
    private final List<Map<String, Recorded>> grounds;
    private final Random random = new Random(1);

    PlanDrafts(KnowledgeBase knowledge, PlanTables tables, List<Map<String, Recorded>> known) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.reasoner = new LogicReasoner(knowledge);
        this.planner = new LogicPlanner(knowledge, tables);
        this.clashes = new ClashFinder(knowledge.terms());
        List<Map<String, Recorded>> planned =
                known.stream().filter(answers -> of(answers).isPresent()).toList();
        this.grounds = Stream.concat(
                        planned.stream(), planned.stream().map(this::allowed).distinct())
                .toList();
    }

    /**
     * A patient whose plan tells slips.
     *
     * @param answers as few answers as tell them
     * @param tells the slips
     * @param expect the plan now
     */
    record Patient(Map<String, Recorded> answers, List<Mutant> tells, Map<String, List<String>> expect) {}

    private record Slip(Mutant mutant, boolean inRules, LogicPlanner planner, Map<String, List<Recorded>> space) {}

    /** A plan with items, and what it was made from. */
    private record Now(LogicPlanner.Known known, LogicPlanner.Choices choices, Plan.Active plan) {
        Set<String> under(Slip slip) {
            try {
                return given(slip.planner().plan(slip.inRules() ? slip.planner().choices(known) : choices));
            } catch (KnowledgeException e) {
                // The slip leaves the patient without a stage.
                return Set.of();
            }
        }

        boolean tells(Slip slip) {
            return !given(plan).equals(under(slip));
        }
    }

    /** Patients that between them tell these slips, as far as a search finds any. */
    List<Patient> patients(List<Mutant> mutants) {
        Map<String, List<Recorded>> everywhere = new LinkedHashMap<>(factors());
        everywhere.putAll(new AnswerSpace(knowledge.catalogue(), staging()).values());
        List<Slip> left = new ArrayList<>();
        for (Mutant mutant : mutants) {
            KnowledgeBase variant = mutant.variant().get();
            left.add(new Slip(
                    mutant,
                    variant != knowledge,
                    new LogicPlanner(variant, mutant.plan().apply(tables)),
                    new AnswerSpace(knowledge.catalogue(), mutant.conditions()).values()));
        }
        List<Patient> patients = new ArrayList<>();
        int last = 0;
        for (int attempt = 0;
                attempt < TRIES && attempt - last < QUIET && !left.isEmpty() && !grounds.isEmpty();
                attempt++) {
            Map<String, Recorded> answers = attempt < grounds.size()
                    ? grounds.get(attempt)
                    : varied(left.get(random.nextInt(left.size())).space(), everywhere);
            Optional<Now> now = of(answers);
            List<Slip> told = now.stream()
                    .flatMap(one -> left.stream().filter(one::tells))
                    .toList();
            if (!told.isEmpty()) {
                patients.add(smallest(answers, now.orElseThrow().plan(), told));
                left.removeAll(told);
                last = attempt;
            }
        }
        return patients;
    }

    private Map<String, Recorded> varied(Map<String, List<Recorded>> space, Map<String, List<Recorded>> everywhere) {
        Map<String, Recorded> answers = new LinkedHashMap<>(grounds.get(random.nextInt(grounds.size())));
        for (int change = 1 + random.nextInt(CHANGES); change > 0; change--) {
            Map<String, List<Recorded>> from = space.isEmpty() || random.nextBoolean() ? everywhere : space;
            List<String> ids = List.copyOf(from.keySet());
            String id = ids.get(random.nextInt(ids.size()));
            List<Recorded> values = from.getOrDefault(id, List.of());
            if (!values.isEmpty()) {
                answers.put(id, values.get(random.nextInt(values.size())));
            }
        }
        return answers;
    }

    /** The plan of these answers; empty when they clash or earn interim advice only. */
    private Optional<Now> of(Map<String, Recorded> answers) {
        Observations observations = observations(answers);
        if (!clashes.clashes(observations).isEmpty()) {
            return Optional.empty();
        }
        LogicPlanner.Known known = planner.known(reasoner.assess("draft", observations), observations);
        LogicPlanner.Choices choices = planner.choices(known);
        return planner.plan(choices) instanceof Plan.Active active
                ? Optional.of(new Now(known, choices, active))
                : Optional.empty();
    }

    /**
     * The patient with every question behind a contraindication answered so that it forbids nothing. While one is open the
     * item is held back, and no slip in what chooses it can be told.
     */
    private Map<String, Recorded> allowed(Map<String, Recorded> patient) {
        Map<String, Recorded> allowed = new LinkedHashMap<>(patient);
        for (PlanItem item : tables.items()) {
            for (Expression forbids : item.limits().contraindication().stream().toList()) {
                new AnswerSpace(knowledge.catalogue(), List.of(forbids))
                        .values()
                        .forEach((id, values) -> {
                            if (!allowed.containsKey(id)) {
                                values.stream()
                                        .map(value -> with(allowed, id, value))
                                        .filter(answers -> forbids.in(observations(answers)) != Truth.TRUE)
                                        .filter(answers -> of(answers).isPresent())
                                        .reduce((first, last) -> last)
                                        .ifPresent(allowed::putAll);
                            }
                        });
            }
        }
        return allowed;
    }

    private static Map<String, Recorded> with(Map<String, Recorded> answers, String id, Recorded value) {
        Map<String, Recorded> more = new LinkedHashMap<>(answers);
        more.put(id, value);
        return more;
    }

    private Observations observations(Map<String, Recorded> answers) {
        return Observations.of(knowledge.catalogue(), Side.LEFT, answers);
    }

    private static Set<String> given(Plan plan) {
        Set<String> given = new LinkedHashSet<>();
        if (plan instanceof Plan.Active active) {
            active.items().forEach(chosen -> given.add(chosen.item().id()));
        }
        return given;
    }

    private Patient smallest(Map<String, Recorded> answers, Plan.Active plan, List<Slip> told) {
        Map<String, Recorded> kept = new LinkedHashMap<>(answers);
        for (String id : answers.keySet()) {
            Map<String, Recorded> fewer = new LinkedHashMap<>(kept);
            fewer.remove(id);
            if (of(fewer)
                    .filter(now -> now.plan().equals(plan))
                    .filter(now -> told.stream().allMatch(now::tells))
                    .isPresent()) {
                kept = fewer;
            }
        }
        Now now = of(kept).orElseThrow();
        Set<String> given = given(plan);
        Set<String> not = new LinkedHashSet<>();
        plan.heldBack().forEach(held -> not.add(held.item().id()));
        told.forEach(slip -> not.addAll(now.under(slip)));
        not.removeAll(given);
        Map<String, List<String>> expect = new LinkedHashMap<>();
        given.forEach(item -> Tells.put(expect, "plan", item));
        not.forEach(item -> Tells.put(expect, "not-plan", item));
        return new Patient(kept, told.stream().map(Slip::mutant).toList(), expect);
    }

    private List<Expression> staging() {
        return knowledge.rules().values().stream()
                .filter(rule -> LogicPlanner.chosen(rule).stream().anyMatch(StageSign.class::isInstance))
                .flatMap(rule -> LogicPlanner.findings(rule).stream())
                .toList();
    }

    /** Answers that move the factors plan rules read: numbers over the whole range of each measure, the right one in the middle. */
    private Map<String, List<Recorded>> factors() {
        Map<String, List<Recorded>> answers = new LinkedHashMap<>();
        for (FactorDefinition factor : knowledge.factors().factors()) {
            boolean read = knowledge.rules().values().stream()
                    .anyMatch(rule -> LogicPlanner.plans(rule) && rule.text().contains("\"" + factor.id() + "\""));
            for (String id : read ? factor.reads() : List.<String>of()) {
                knowledge
                        .factors()
                        .measure(id)
                        .map(MeasureDefinition::finding)
                        .orElse(Optional.of(id))
                        .flatMap(knowledge.catalogue()::finding)
                        .ifPresent(finding -> answers.put(finding.id(), over(finding)));
            }
        }
        return answers;
    }

    private List<Recorded> over(FindingDefinition finding) {
        if (finding.min().isEmpty() || finding.max().isEmpty()) {
            return new AnswerSpace(knowledge.catalogue(), List.of(new Expression.Is(finding.id(), "present")))
                    .values()
                    .getOrDefault(finding.id(), List.of());
        }
        double low = finding.min().getAsDouble();
        double step = (finding.max().getAsDouble() - low) / STEPS;
        List<Recorded> over = new ArrayList<>();
        for (int i = 0; i <= STEPS; i++) {
            Answer answer = AnswerSpace.quantity(Math.rint(low + i * step));
            over.add(
                    finding.perSide()
                            ? new Recorded.Sides(
                                    Optional.of(answer),
                                    Optional.of(AnswerSpace.quantity(Math.rint(low + step * STEPS / 2))))
                            : new Recorded.Whole(answer));
        }
        return over;
    }
}
