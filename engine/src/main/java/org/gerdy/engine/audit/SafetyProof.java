package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Supplier;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.fact.FlagStanding;
import org.gerdy.engine.fact.PlanChoice;
import org.gerdy.engine.fact.Triage;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.plan.Planner;
import org.gerdy.engine.plan.Situation;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Visits, for each red flag row, every combination of the answers its rules, its gate, its entry question and its needs
 * read, each also left unanswered, and holds two invariants at each: making a danger sign present never lowers urgency,
 * and an answer forgotten never reassures. A flag is the highest of its rows and a result the highest of its flags, so
 * what holds row by row holds for the whole; what fails for a row is tried on the whole assessment before it counts.
 * Where the combinations of a row are too many, each of its rules is visited in full by itself and the row by a random
 * sample. A third invariant is held at a sample of what raises each row: above routine referral nothing but interim
 * advice comes out, even with every other answer reassuring and every plan item chosen by the rules.
 *
 * @param rows what was visited, row by row
 * @param broken every breach found, in words
 */
public record SafetyProof(List<Visited> rows, List<String> broken) {
    /**
     * One row.
     *
     * @param row its id
     * @param combinations how many combinations of answers were visited
     * @param comparisons how many single changes of an answer were compared
     * @param complete whether all combinations of the whole row were visited
     * @param planned at how many combinations that raise it a plan was asked for
     */
    public record Visited(String row, long combinations, long comparisons, boolean complete, long planned) {}

    /** Visits every row of the knowledge base on all cores; at most {@code limit} combinations at a time. */
    public static SafetyProof run(KnowledgeBase knowledge, PlanTables tables, int limit, long seed, Watcher watcher) {
        List<RowVisit> visits;
        try (Watcher.Steps steps =
                watcher.begin("Red flag rows", knowledge.redFlags().size())) {
            visits = knowledge.redFlags().parallelStream()
                    .map(row -> new RowVisit(knowledge, tables, row, limit, seed).visit())
                    .peek(visit -> steps.done(1))
                    .toList();
        }
        List<Visited> rows = new ArrayList<>();
        List<String> broken = new ArrayList<>();
        visits.forEach(visit -> {
            rows.add(visit.visited());
            broken.addAll(visit.broken);
        });
        return new SafetyProof(List.copyOf(rows), List.copyOf(broken));
    }

    /** Whether no breach was found. */
    public boolean holds() {
        return broken.isEmpty();
    }

    /** Combinations visited over all rows. */
    public long combinations() {
        return rows.stream().mapToLong(Visited::combinations).sum();
    }

    /** The result in words. */
    public List<String> lines() {
        List<String> lines = new ArrayList<>();
        long whole = rows.stream().filter(Visited::complete).count();
        lines.add(combinations() + " combinations of answers visited over " + rows.size() + " red flag rows, "
                + rows.stream().mapToLong(Visited::comparisons).sum() + " single changes compared.");
        lines.add(whole + " rows were visited in every combination; the other " + (rows.size() - whole)
                + " rule by rule in every combination and as a whole by random sample.");
        lines.add(rows.stream().mapToLong(Visited::planned).sum()
                + " combinations that raise a row above routine referral were planned for, every other answer"
                + " reassuring and every plan item chosen: interim advice only.");
        lines.add("Making a danger sign present never lowers urgency; an answer forgotten never reassures: "
                + (holds() ? "held everywhere." : broken.size() + " breaches."));
        lines.addAll(broken);
        return lines;
    }

    /** One row being visited. */
    private static final class RowVisit {
        private static final int TOLD = 3;
        private static final int PLANS = 25;
        private static final int RAISED = 2;

        private final KnowledgeBase knowledge;
        private final PlanTables tables;
        private final RowDecision decision;
        private final int limit;
        private final Random random;
        private final LogicReasoner whole;
        private final List<String> broken = new ArrayList<>();
        private long combinations;
        private long comparisons;
        private boolean complete;
        private long seen;
        private final List<Map<String, Recorded>> raised = new ArrayList<>();
        private Set<String> reads = Set.of();

        RowVisit(KnowledgeBase knowledge, PlanTables tables, RedFlagRow row, int limit, long seed) {
            this.knowledge = knowledge;
            this.tables = tables;
            this.decision = new RowDecision(knowledge, row);
            this.limit = limit;
            this.random = new Random(seed + row.id().hashCode());
            this.whole = new LogicReasoner(knowledge);
        }

        Visited visited() {
            return new Visited(decision.row().id(), combinations, comparisons, complete, raised.size());
        }

        RowVisit visit() {
            combine();
            raised.forEach(this::plan);
            return this;
        }

        private void combine() {
            RedFlagRow row = decision.row();
            List<Expression> all = new ArrayList<>(decision.rules());
            row.appliesIf().ifPresent(all::add);
            row.trigger().ifPresent(all::add);
            AnswerSpace space = new AnswerSpace(knowledge.catalogue(), all).and(row.needs());
            reads = space.values().keySet();
            if (space.combinations() <= limit) {
                complete = true;
                everywhere(space);
                return;
            }
            for (Expression rule : decision.rules()) {
                AnswerSpace part = new AnswerSpace(knowledge.catalogue(), List.of(rule));
                if (part.combinations() <= limit) {
                    everywhere(part);
                } else {
                    sampled(part);
                }
            }
            sampled(space);
        }

        /** Keeps a fair sample of the combinations that raise the row, if it allows interim advice only. */
        private void keep(Supplier<Map<String, Recorded>> answers) {
            if (decision.row().urgency().compareTo(Urgency.ROUTINE_REFERRAL) <= 0) {
                return;
            }
            seen++;
            if (raised.size() < PLANS) {
                raised.add(answers.get());
            } else if (random.nextLong(seen) < PLANS) {
                raised.set(random.nextInt(PLANS), answers.get());
            }
        }

        /** Asks for a plan in the most permissive situation: all that the row does not read is reassuring. */
        private void plan(Map<String, Recorded> answers) {
            Map<String, Recorded> reassuring = new LinkedHashMap<>();
            for (FindingDefinition finding : knowledge.catalogue().findings()) {
                if (finding.kind() == Kind.YES_NO
                        && !finding.dangerWhen().equals("absent")
                        && !reads.contains(finding.id())) {
                    reassuring.put(finding.id(), AnswerSpace.recorded(finding, Answer.State.ABSENT));
                }
            }
            reassuring.putAll(answers);
            Observations observations = observations(reassuring);
            Assessment assessment = whole.screen("visit", observations);
            List<FlagStanding> cleared = assessment.flags().stream()
                    .map(flag -> new FlagStanding(flag.id(), "cleared"))
                    .toList();
            List<PlanChoice> every = tables.items().stream()
                    .map(item -> new PlanChoice(item.id(), "every item"))
                    .toList();
            for (boolean screened : new boolean[] {true, false}) {
                Situation situation =
                        new Situation(observations, Triage.of(assessment.urgency(), screened), cleared, Set.of());
                for (String stage : tables.stages()) {
                    if (broken.size() < TOLD
                            && new Planner(tables).plan(situation, stage, every) instanceof Plan.Active) {
                        broken.add(decision.row().id() + ": more than interim advice at "
                                + Expected.word(assessment.urgency()) + ", with " + told(answers));
                    }
                }
            }
        }

        private void everywhere(AnswerSpace space) {
            Combinations all = new Combinations(space);
            int total = (int) space.combinations();
            byte[] states = new byte[total];
            for (int i = 0; i < total; i++) {
                states[i] = (byte) rank(decision.state(observations(all.at(i))));
            }
            for (int i = 0; i < total; i++) {
                int index = i;
                if (states[i] == RAISED) {
                    keep(() -> all.at(index));
                }
            }
            combinations += total;
            int stride = 1;
            for (int f = 0; f < all.findings().size(); f++) {
                String id = all.findings().get(f);
                for (int i = 0; i < total; i++) {
                    int now = i / stride % all.ways(f);
                    int bare = i - now * stride;
                    for (int other = 0; other < all.ways(f); other++) {
                        if (other != now) {
                            comparisons++;
                            int at = bare + other * stride;
                            if (suspicious(id, all.values(f), now, other, states[i], states[at])) {
                                judge(all.at(i), all.at(at), id, other == 0);
                            }
                        }
                    }
                }
                stride *= all.ways(f);
            }
        }

        private void sampled(AnswerSpace space) {
            Combinations all = new Combinations(space);
            int samples = Math.max(100, limit / 10);
            for (int s = 0; s < samples; s++) {
                Map<String, Recorded> answers = all.drawn(random, random.nextDouble() * 0.7);
                combinations++;
                int before = rank(decision.state(observations(answers)));
                if (before == RAISED) {
                    keep(() -> answers);
                }
                for (int f = 0; f < all.findings().size(); f++) {
                    String id = all.findings().get(f);
                    List<Recorded> values = all.values(f);
                    int now = answers.containsKey(id) ? values.indexOf(answers.get(id)) + 1 : 0;
                    for (int other = 0; other <= values.size(); other++) {
                        if (other != now) {
                            Map<String, Recorded> moved = new LinkedHashMap<>(answers);
                            if (other == 0) {
                                moved.remove(id);
                            } else {
                                moved.put(id, values.get(other - 1));
                            }
                            comparisons++;
                            int after = rank(decision.state(observations(moved)));
                            if (suspicious(id, values, now, other, before, after)) {
                                judge(answers, moved, id, other == 0);
                            }
                        }
                    }
                }
            }
        }

        /** Whether a row fell by a change that may not let it fall. */
        private boolean suspicious(String id, List<Recorded> values, int now, int other, int before, int after) {
            if (other == 0) {
                return (before == 1 && after == 0)
                        || (before == RAISED && after < RAISED && !danger(id, values.get(now - 1)));
            }
            return danger(id, values.get(other - 1)) && before == RAISED && after < RAISED;
        }

        private boolean danger(String id, Recorded answer) {
            String dangerous = knowledge.catalogue().finding(id).orElseThrow().dangerWhen();
            return answer.on(Side.LEFT)
                    .map(Answer::text)
                    .filter(dangerous::equals)
                    .isPresent();
        }

        /** Holds the change against the whole assessment, where another row may still speak. */
        private void judge(Map<String, Recorded> before, Map<String, Recorded> after, String id, boolean forgotten) {
            if (broken.size() >= TOLD) {
                return;
            }
            Assessment was = whole.screen("visit", observations(before));
            Assessment is = whole.screen("visit", observations(after));
            Optional<Urgency> still = max(is.urgency(), is.couldBecome());
            boolean fell = was.urgency().isPresent()
                    && (still.isEmpty() || still.get().compareTo(was.urgency().get()) < 0);
            boolean reassured = forgotten
                    && state(was) == FlagState.OPEN
                    && state(is) != FlagState.OPEN
                    && state(is) != FlagState.RAISED;
            if (fell || reassured) {
                broken.add(decision.row().id() + ": " + id + (forgotten ? " forgotten " : " made a danger sign ")
                        + (fell ? "lowers urgency from " : "closes the row, from ")
                        + Expected.word(was.urgency()) + " to " + Expected.word(is.urgency()) + ", with "
                        + told(before));
            }
        }

        private FlagState state(Assessment assessment) {
            return assessment.flag(decision.row().flag()).rows().stream()
                    .filter(row -> row.id().equals(decision.row().id()))
                    .findFirst()
                    .orElseThrow()
                    .state();
        }

        private static Optional<Urgency> max(Optional<Urgency> a, Optional<Urgency> b) {
            return a.isEmpty() ? b : b.isEmpty() ? a : Optional.of(a.get().orHigher(b.get()));
        }

        private String told(Map<String, Recorded> answers) {
            Observations observations = observations(answers);
            Set<String> parts = new LinkedHashSet<>();
            answers.keySet().forEach(id -> parts.add(id + " " + observations.shown(id)));
            return String.join(", ", parts);
        }

        private Observations observations(Map<String, Recorded> answers) {
            return Observations.of(knowledge.catalogue(), Side.LEFT, answers);
        }

        private static int rank(FlagState state) {
            return switch (state) {
                case RAISED -> RowVisit.RAISED;
                case OPEN -> 1;
                case CLEARED, NOT_APPLICABLE, NOT_TRIGGERED -> 0;
            };
        }
    }
}
