package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.DecisionRule;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.knowledge.ScoreDefinition;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.LogicReasoner;

/**
 * What of a knowledge base some cases touch.
 *
 * @param rules by rule of triage, in the order of the files
 * @param rows by red flag row and referral threshold, in table order
 * @param evidence by reading of an evidence row, such as {@code locking present for loose-body}, in table order
 * @param instruments by item of a published score and criterion of a decision rule, in table order
 * @param elsewhere rules that conclude something an assessment does not hold, such as a plan; nothing is said of them
 */
public record Coverage(
        Map<String, Touched> rules,
        Map<String, Touched> rows,
        Map<String, Touched> evidence,
        Map<String, Touched> instruments,
        List<String> elsewhere) {

    /**
     * The cases about one rule or row.
     *
     * @param fire ids of cases in which it fires
     * @param justMiss ids of cases one answered finding away from firing it: another state, another choice, or a number
     *     one step away
     * @param followed whether its condition could be followed; otherwise nothing is said about just missing
     */
    public record Touched(List<String> fire, List<String> justMiss, boolean followed) {
        /** Whether some case fires it and, as far as can be told, some case just misses it. */
        public boolean guarded() {
            return !fire.isEmpty() && (!followed || !justMiss.isEmpty());
        }
    }

    /** Rules no case guards. */
    public List<String> unguardedRules() {
        return unguarded(rules);
    }

    /** Red flag rows and referral thresholds no case guards. */
    public List<String> unguardedRows() {
        return unguarded(rows);
    }

    /** Readings of evidence rows no case guards. */
    public List<String> unguardedEvidence() {
        return unguarded(evidence);
    }

    /** Items of scores and criteria of decision rules no case guards. */
    public List<String> unguardedInstruments() {
        return unguarded(instruments);
    }

    private static List<String> unguarded(Map<String, Touched> all) {
        return all.entrySet().stream()
                .filter(entry -> !entry.getValue().guarded())
                .map(Map.Entry::getKey)
                .toList();
    }

    static Coverage of(KnowledgeBase knowledge, List<Audit.Result> results) {
        LogicReasoner logic = new LogicReasoner(knowledge);
        Map<String, Set<String>> fired = new TreeMap<>();
        Map<String, Set<String>> rowFired = new TreeMap<>();
        Map<String, Set<String>> spoke = new TreeMap<>();
        Map<String, Set<String>> met = new TreeMap<>();
        Map<String, Expression> parts = instrumentParts(knowledge);
        for (Audit.Result result : results) {
            String id = result.auditCase().id();
            Assessment assessment = result.assessment();
            Observations observations = result.auditCase().observations(knowledge.terms());
            parts.forEach((name, condition) -> {
                if (condition.in(observations) == Truth.TRUE) {
                    add(met, name, id);
                }
            });
            for (Flag flag : assessment.flags()) {
                for (Flag.Row row : flag.rows()) {
                    row.reasons().forEach(reason -> add(fired, reason.rule(), id));
                    if (row.state() == FlagState.RAISED) {
                        add(rowFired, row.id(), id);
                    }
                }
            }
            assessment.referrals().forEach(referral -> {
                add(rowFired, referral.id(), id);
                referral.reasons().forEach(reason -> add(fired, reason.rule(), id));
            });
            add(fired, assessment.population().reason().rule(), id);
            for (CandidateResult candidate : assessment.candidates()) {
                Stream.concat(candidate.supporting().stream(), candidate.opposing().stream())
                        .forEach(weight -> {
                            add(spoke, reading(weight.finding(), weight.present(), candidate.condition()), id);
                            add(fired, logic.weighRule(), id);
                        });
            }
        }
        List<String> elsewhere = logic.notCovered();
        List<RuleCard> cards = knowledge.rules().values().stream()
                .filter(rule -> !elsewhere.contains(rule.id()))
                .toList();
        Set<Expression> followed = new LinkedHashSet<>();
        cards.forEach(card -> card.logic().ifPresent(followed::add));
        knowledge.evidence().rows().forEach(row -> {
            row.whenPresent().ifPresent(ratio -> followed.add(known(row, true)));
            row.whenAbsent().ifPresent(ratio -> followed.add(known(row, false)));
        });
        followed.addAll(parts.values());
        Map<Expression, List<String>> misses = justMissed(knowledge, followed, results);

        Map<String, Touched> rules = new LinkedHashMap<>();
        for (RuleCard card : cards) {
            rules.put(
                    card.id(),
                    new Touched(
                            List.copyOf(fired.getOrDefault(card.id(), Set.of())),
                            card.logic()
                                    .map(condition -> misses.getOrDefault(condition, List.of()))
                                    .orElse(List.of()),
                            card.logic().isPresent()));
        }
        Map<String, Touched> rows = new LinkedHashMap<>();
        List<String> ids = new ArrayList<>();
        knowledge.redFlags().forEach(row -> ids.add(row.id()));
        ids.addAll(knowledge.referrals().keySet());
        for (String row : ids) {
            Set<String> fire = rowFired.getOrDefault(row, Set.of());
            Set<String> miss = new LinkedHashSet<>();
            boolean any = false;
            for (RuleCard card : cards) {
                if (card.row().equals(row) && card.logic().isPresent()) {
                    any = true;
                    miss.addAll(misses.getOrDefault(card.logic().get(), List.of()));
                }
            }
            miss.removeAll(fire);
            rows.put(row, new Touched(List.copyOf(fire), List.copyOf(miss), any));
        }
        Map<String, Touched> evidence = new LinkedHashMap<>();
        for (EvidenceRow row : knowledge.evidence().rows()) {
            for (boolean present : List.of(true, false)) {
                if (row.ratio(present).isPresent()) {
                    String reading = reading(row.finding(), present, row.condition());
                    evidence.put(
                            reading,
                            new Touched(
                                    List.copyOf(spoke.getOrDefault(reading, Set.of())),
                                    misses.getOrDefault(known(row, present), List.of()),
                                    true));
                }
            }
        }
        Map<String, Touched> instruments = new LinkedHashMap<>();
        parts.forEach((name, condition) -> instruments.put(
                name,
                new Touched(
                        List.copyOf(met.getOrDefault(name, Set.of())),
                        misses.getOrDefault(condition, List.of()),
                        true)));
        return new Coverage(rules, rows, evidence, instruments, elsewhere);
    }

    /** What each item of a score and each criterion of a decision rule asks for, by instrument and label. */
    private static Map<String, Expression> instrumentParts(KnowledgeBase knowledge) {
        Map<String, Expression> parts = new LinkedHashMap<>();
        for (ScoreDefinition score : knowledge.scores()) {
            for (int i = 0; i < score.itemLabels().size(); i++) {
                parts.put(
                        score.id() + ": " + score.itemLabels().get(i),
                        score.points().items().get(i).condition());
            }
        }
        for (DecisionRule rule : knowledge.decisionRules()) {
            rule.criteria().forEach(criterion -> parts.put(rule.id() + ": " + criterion.name(), criterion.met()));
        }
        return parts;
    }

    private static String reading(String finding, boolean present, String condition) {
        return finding + (present ? " present" : " absent") + " for " + condition;
    }

    private static Expression known(EvidenceRow row, boolean present) {
        return new Expression.Is(row.finding(), present ? "present" : "absent");
    }

    private static void add(Map<String, Set<String>> map, String key, String id) {
        map.computeIfAbsent(key, ignored -> new LinkedHashSet<>()).add(id);
    }

    /** By condition the ids of cases that just miss it, in the order of the cases. */
    private static Map<Expression, List<String>> justMissed(
            KnowledgeBase knowledge, Set<Expression> followed, List<Audit.Result> results) {
        List<Followed> all =
                followed.stream().map(logic -> Followed.of(knowledge, logic)).toList();
        List<List<Expression>> byCase = results.parallelStream()
                .map(result -> {
                    Observations observations = result.auditCase().observations(knowledge.terms());
                    return all.stream()
                            .filter(one -> one.justMissedBy(observations))
                            .map(Followed::logic)
                            .toList();
                })
                .toList();
        Map<Expression, List<String>> misses = new HashMap<>();
        for (int i = 0; i < byCase.size(); i++) {
            for (Expression logic : byCase.get(i)) {
                misses.computeIfAbsent(logic, ignored -> new ArrayList<>())
                        .add(results.get(i).auditCase().id());
            }
        }
        return misses;
    }

    /** A condition, its parts with what each asks for, and the answers that can matter to it. */
    private record Followed(Expression logic, Map<Expression, Set<String>> parts, AnswerSpace space) {
        static Followed of(KnowledgeBase knowledge, Expression logic) {
            Map<Expression, Set<String>> parts = new LinkedHashMap<>();
            for (Expression part : logic instanceof Expression.And and ? and.parts() : List.of(logic)) {
                parts.put(part, knowledge.catalogue().askedBehind(part));
            }
            return new Followed(logic, parts, new AnswerSpace(knowledge.catalogue(), List.of(logic)));
        }

        boolean justMissedBy(Observations observations) {
            Set<String> movable = new LinkedHashSet<>(observations.recorded().keySet());
            boolean fires = true;
            for (Map.Entry<Expression, Set<String>> part : parts.entrySet()) {
                if (part.getKey().in(observations) != Truth.TRUE) {
                    fires = false;
                    movable.retainAll(part.getValue());
                    if (movable.isEmpty()) {
                        return false;
                    }
                }
            }
            if (fires) {
                return false;
            }
            for (String finding : movable) {
                Recorded now = observations.recorded(finding).orElseThrow();
                for (Recorded other : space.neighbours(finding, now)) {
                    if (logic.in(observations.with(finding, other)) == Truth.TRUE) {
                        return true;
                    }
                }
            }
            return false;
        }
    }
}
