package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicPlanner;
import org.gerdy.engine.reasoning.LogicReasoner;

/**
 * How many single slips in the knowledge base some case would catch.
 *
 * @param outcomes every slip, in the order of the knowledge base
 * @param notCovered rules whose condition could not be followed, so that no slip in them was tried
 */
public record Mutation(List<Outcome> outcomes, List<String> notCovered) {
    /**
     * What became of one slip.
     *
     * @param mutant the slip
     * @param caughtBy the first case that caught it; empty for a survivor
     * @param differed how many cases came out differently without expecting otherwise
     * @param alike for a survivor: how many combinations of answers the red flags it touches rest on, when it moves them in
     *     none; 0 when it does in some, and when not all could be looked at
     */
    public record Outcome(Mutant mutant, Optional<String> caughtBy, int differed, long alike) {
        /** Whether no answers to what its red flags rest on can tell it. */
        public boolean cannotBeTold() {
            return alike > 0;
        }

        /** Whether no case would notice. */
        public boolean survived() {
            return caughtBy.isEmpty();
        }
    }

    /** Slips tried and caught. */
    public record Score(int tried, int caught) {
        /** Part caught, 0 to 1; 1 when none was tried. */
        public double part() {
            return tried == 0 ? 1 : (double) caught / tried;
        }
    }

    private record Prepared(
            AuditCase auditCase,
            Look look,
            Optional<Plan> plan,
            boolean watchesCandidates,
            boolean watchesInstruments,
            boolean watchesFactors) {
        /** Whether what the case expects could tell a slip of this group at all. */
        boolean watches(Mutant.Group group) {
            return switch (group) {
                case RED_FLAGS, QUESTIONS -> true;
                case INSTRUMENTS -> watchesInstruments;
                case FACTORS -> watchesFactors;
                case PLAN -> plan.isPresent();
                case REFERRALS, CANDIDATES -> watchesCandidates;
            };
        }
    }

    /** Tries slips against the cases that hold now, on all cores. */
    public static Mutation run(
            KnowledgeBase knowledge, PlanTables tables, List<Mutant> mutants, List<AuditCase> cases, Watcher watcher) {
        List<String> notCovered = new ArrayList<>(new LogicPlanner(knowledge, tables).notCovered());
        new LogicReasoner(knowledge)
                .notCovered().stream()
                        .filter(id -> !LogicPlanner.plans(knowledge.rule(id)))
                        .forEach(notCovered::add);
        RowSearch search = new RowSearch(knowledge);
        ThreadLocal<List<Prepared>> prepared = ThreadLocal.withInitial(() -> prepare(knowledge, tables, cases));
        try (Watcher.Steps steps = watcher.begin("Slips", mutants.size())) {
            List<Outcome> outcomes = mutants.parallelStream()
                    .map(mutant -> outcome(mutant, tables, prepared.get()))
                    .map(outcome -> outcome.survived() && outcome.mutant().group() == Mutant.Group.RED_FLAGS
                            ? searched(outcome, search)
                            : outcome)
                    .peek(outcome -> steps.done(1))
                    .toList();
            return new Mutation(outcomes, List.copyOf(notCovered));
        }
    }

    private static Outcome searched(Outcome survivor, RowSearch search) {
        RowSearch.Found found = search.search(survivor.mutant());
        return new Outcome(
                survivor.mutant(), Optional.empty(), survivor.differed(), found.alike() ? found.visited() : 0);
    }

    /** Whether a slip would be caught by one of these cases. */
    static boolean caught(KnowledgeBase knowledge, PlanTables tables, Mutant mutant, List<AuditCase> cases) {
        return !outcome(mutant, tables, prepare(knowledge, tables, cases)).survived();
    }

    /**
     * The cases, those with the fewest answers first: they are soon looked through, and a slip is done with once caught. A
     * case that does not hold now can catch nothing. Each thread has its own, because observations remember.
     */
    private static List<Prepared> prepare(KnowledgeBase knowledge, PlanTables tables, List<AuditCase> cases) {
        LogicReasoner reasoner = new LogicReasoner(knowledge);
        LogicPlanner planner = new LogicPlanner(knowledge, tables);
        List<Prepared> prepared = new ArrayList<>();
        for (AuditCase one : cases) {
            if (one.expects()) {
                Assessment assessment =
                        reasoner.assess(one.caseFile(), one.caseFile().latest());
                CaseFile.Expectation expect = one.caseFile().expect().orElseThrow();
                if (Expected.differences(expect, assessment).isEmpty()) {
                    Observations observations = one.observations(knowledge.terms());
                    CaseFile.Care care = expect.detail().care();
                    Optional<Plan> plan =
                            care.plan().isEmpty() && care.notPlan().isEmpty()
                                    ? Optional.empty()
                                    : Optional.of(planner.plan(assessment, observations));
                    prepared.add(new Prepared(
                            one,
                            new Look(observations, () -> assessment),
                            plan.filter(now -> Expected.ofPlan(care, now).isEmpty()),
                            watchesCandidates(one),
                            watchesInstruments(one),
                            !care.factors().isEmpty()));
                }
            }
        }
        prepared.sort(Comparator.comparingInt(
                one -> one.look().observations().recorded().size()));
        return prepared;
    }

    private static boolean watchesCandidates(AuditCase one) {
        CaseFile.Expectation expect = one.caseFile().expect().orElseThrow();
        CaseFile.Detail detail = expect.detail();
        return expect.leading().isPresent()
                || !expect.within().isEmpty()
                || detail.population().isPresent()
                || !detail.referrals().isEmpty()
                || !detail.notReferrals().isEmpty()
                || !detail.weights().equals(CaseFile.Weights.NOTHING)
                || watchesInstruments(one)
                || !detail.care().factors().isEmpty();
    }

    private static boolean watchesInstruments(AuditCase one) {
        CaseFile.Detail detail = one.caseFile().expect().orElseThrow().detail();
        return !detail.scores().isEmpty() || !detail.decisionRules().isEmpty();
    }

    private static Outcome outcome(Mutant mutant, PlanTables tables, List<Prepared> cases) {
        Optional<Function<Prepared, Optional<Boolean>>> noticing = Optional.empty();
        int differed = 0;
        for (Prepared one : cases) {
            if (!one.watches(mutant.group()) || !mutant.mayDiffer().test(one.look())) {
                continue;
            }
            if (noticing.isEmpty()) {
                noticing = Optional.of(noticing(mutant, tables));
            }
            try {
                Optional<Boolean> caught = noticing.get().apply(one);
                if (caught.isEmpty()) {
                    continue;
                }
                if (caught.get()) {
                    return new Outcome(mutant, Optional.of(one.auditCase().id()), differed, 0);
                }
                differed++;
            } catch (IllegalArgumentException | KnowledgeException e) {
                // A slip that breaks the reasoning is noticed by whatever case meets it.
                return new Outcome(mutant, Optional.of(one.auditCase().id()), differed, 0);
            }
        }
        return new Outcome(mutant, Optional.empty(), differed, 0);
    }

    /** Whether a case notices the slip; empty when nothing about it changed. */
    private static Function<Prepared, Optional<Boolean>> noticing(Mutant mutant, PlanTables tables) {
        KnowledgeBase variant = mutant.variant().get();
        if (mutant.group() == Mutant.Group.PLAN) {
            LogicPlanner planner = new LogicPlanner(variant, mutant.plan().apply(tables));
            return one -> planCaught(one, planner);
        }
        LogicReasoner reasoner = new LogicReasoner(variant);
        return one -> caught(mutant, one, reasoner);
    }

    private static Optional<Boolean> planCaught(Prepared one, LogicPlanner planner) {
        Plan plan = planner.plan(one.look().assessment(), one.look().observations());
        CaseFile.Care care =
                one.auditCase().caseFile().expect().orElseThrow().detail().care();
        return plan.equals(one.plan().orElseThrow())
                ? Optional.empty()
                : Optional.of(!Expected.ofPlan(care, plan).isEmpty());
    }

    /** Whether the case notices; empty when nothing about it changed. Flags are looked at first, they are cheap. */
    private static Optional<Boolean> caught(Mutant mutant, Prepared one, LogicReasoner reasoner) {
        CaseFile file = one.auditCase().caseFile();
        CaseFile.Expectation expect = file.expect().orElseThrow();
        boolean flags = mutant.group() == Mutant.Group.RED_FLAGS || mutant.group() == Mutant.Group.QUESTIONS;
        if (flags) {
            Assessment screened = reasoner.screen(file, file.latest());
            if (!Expected.differences(withoutCandidates(expect), screened).isEmpty()) {
                return Optional.of(true);
            }
            boolean same = screened.flags().equals(one.look().assessment().flags());
            if (same && !mutant.place().startsWith("computed")) {
                return Optional.empty();
            }
            if (!one.watchesCandidates()) {
                return same ? Optional.empty() : Optional.of(false);
            }
        }
        Assessment assessment = reasoner.assess(file, file.latest());
        return Optional.of(!Expected.differences(expect, assessment).isEmpty());
    }

    private static CaseFile.Expectation withoutCandidates(CaseFile.Expectation expect) {
        CaseFile.Detail detail = expect.detail();
        return new CaseFile.Expectation(
                expect.urgency(),
                expect.atLeast(),
                expect.raised(),
                expect.notRaised(),
                expect.rowsRaised(),
                expect.rowsNotRaised(),
                expect.cleared(),
                expect.open(),
                Optional.empty(),
                Map.of(),
                expect.never(),
                new CaseFile.Detail(
                        detail.rowsOpen(),
                        detail.rowsCleared(),
                        detail.rowUrgency(),
                        detail.population(),
                        List.of(),
                        List.of(),
                        CaseFile.Weights.NOTHING,
                        Map.of(),
                        Map.of(),
                        CaseFile.Care.NOTHING));
    }

    /** The slips nobody would notice. */
    public List<Outcome> survivors() {
        return outcomes.stream().filter(Outcome::survived).toList();
    }

    /** The score of each group. */
    public Map<Mutant.Group, Score> scores() {
        Map<Mutant.Group, Score> scores = new EnumMap<>(Mutant.Group.class);
        for (Outcome outcome : outcomes) {
            scores.merge(
                    outcome.mutant().group(),
                    new Score(1, outcome.survived() ? 0 : 1),
                    (a, b) -> new Score(a.tried() + b.tried(), a.caught() + b.caught()));
        }
        return scores;
    }

    /** The score over everything. */
    public Score overall() {
        return new Score(outcomes.size(), outcomes.size() - survivors().size());
    }
}
