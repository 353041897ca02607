package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.LogicReasoner;

/**
 * What of a knowledge base some cases touch.
 *
 * @param rules by rule of triage, in the order of the files
 * @param rows by red flag row and referral threshold, in table order
 * @param evidenceUsed evidence rows, {@code finding for condition}, that spoke in some case
 * @param evidenceUnused evidence rows that spoke in none
 * @param elsewhere rules that conclude something an assessment does not hold, such as a plan; nothing is said of them
 */
public record Coverage(
        Map<String, Touched> rules,
        Map<String, Touched> rows,
        List<String> evidenceUsed,
        List<String> evidenceUnused,
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

    private static List<String> unguarded(Map<String, Touched> all) {
        return all.entrySet().stream()
                .filter(entry -> !entry.getValue().guarded())
                .map(Map.Entry::getKey)
                .toList();
    }

    static Coverage of(KnowledgeBase knowledge, List<Audit.Result> results) {
        Map<String, Set<String>> fired = new TreeMap<>();
        Map<String, Set<String>> rowFired = new TreeMap<>();
        Set<String> spoke = new LinkedHashSet<>();
        for (Audit.Result result : results) {
            String id = result.auditCase().id();
            Assessment assessment = result.assessment();
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
                candidate.supporting().forEach(weight -> spoke.add(weight.finding() + " for " + candidate.condition()));
                candidate.opposing().forEach(weight -> spoke.add(weight.finding() + " for " + candidate.condition()));
            }
        }
        Map<String, Touched> rules = new LinkedHashMap<>();
        List<String> elsewhere = new LogicReasoner(knowledge).notCovered();
        List<RuleCard> cards = knowledge.rules().values().stream()
                .filter(rule -> !elsewhere.contains(rule.id()))
                .toList();
        List<List<String>> misses = cards.parallelStream()
                .map(card -> card.logic()
                        .map(logic -> justMiss(knowledge, logic, results))
                        .orElse(List.of()))
                .toList();
        for (int i = 0; i < cards.size(); i++) {
            RuleCard card = cards.get(i);
            Set<String> fire = fired.getOrDefault(card.id(), new LinkedHashSet<>());
            rules.put(
                    card.id(),
                    new Touched(List.copyOf(fire), misses.get(i), card.logic().isPresent()));
        }
        Map<String, Touched> rows = new LinkedHashMap<>();
        List<String> ids = new ArrayList<>();
        knowledge.redFlags().forEach(row -> ids.add(row.id()));
        ids.addAll(knowledge.referrals().keySet());
        for (String row : ids) {
            Set<String> fire = rowFired.getOrDefault(row, new LinkedHashSet<>());
            Set<String> miss = new LinkedHashSet<>();
            boolean followed = false;
            for (RuleCard card : cards) {
                if (card.row().equals(row) && card.logic().isPresent()) {
                    followed = true;
                    miss.addAll(rules.getOrDefault(card.id(), NOTHING).justMiss());
                }
            }
            miss.removeAll(fire);
            rows.put(row, new Touched(List.copyOf(fire), List.copyOf(miss), followed));
        }
        List<String> all =
                knowledge.evidence().rows().stream().map(Coverage::name).toList();
        return new Coverage(
                rules,
                rows,
                all.stream().filter(spoke::contains).toList(),
                all.stream().filter(row -> !spoke.contains(row)).toList(),
                elsewhere);
    }

    private static final Touched NOTHING = new Touched(List.of(), List.of(), false);

    private static String name(EvidenceRow row) {
        return row.finding() + " for " + row.condition();
    }

    private static void add(Map<String, Set<String>> map, String key, String id) {
        map.computeIfAbsent(key, ignored -> new LinkedHashSet<>()).add(id);
    }

    private static List<String> justMiss(KnowledgeBase knowledge, Expression logic, List<Audit.Result> results) {
        AnswerSpace space = new AnswerSpace(knowledge.catalogue(), List.of(logic));
        List<Expression> parts = logic instanceof Expression.And and ? and.parts() : List.of(logic);
        Map<Expression, Set<String>> asked = parts.stream()
                .distinct()
                .collect(Collectors.toMap(
                        part -> part,
                        part -> knowledge.catalogue().askedBehind(part),
                        (a, b) -> a,
                        LinkedHashMap::new));
        List<String> misses = new ArrayList<>();
        for (Audit.Result result : results) {
            Observations observations = result.auditCase().observations(knowledge.terms());
            if (justMisses(logic, asked, space, observations)) {
                misses.add(result.auditCase().id());
            }
        }
        return misses;
    }

    private static boolean justMisses(
            Expression logic, Map<Expression, Set<String>> parts, AnswerSpace space, Observations observations) {
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
