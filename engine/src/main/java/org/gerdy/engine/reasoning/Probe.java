package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.Outlook;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.Population;
import org.gerdy.engine.fact.Weighed;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Asks the rules "and if this were the answer?" many times over. Only the facts one answer can change are exchanged in a
 * living rule session; only the flags and candidates that rest on them are decided again. Agrees with the full
 * assessment. For one thread; close it when done.
 */
public final class Probe implements AutoCloseable {
    private final KnowledgeBase knowledge;
    private final FindingFacts facts;
    private final Differential differential;
    private final ProbeSession session;
    private final Map<String, List<Integer>> rowsByFinding = new HashMap<>();
    private final Map<String, List<EvidenceRow>> evidence = new HashMap<>();
    private Observations base;
    private Map<String, Weighed> weighed = new HashMap<>();
    private Map<String, Differential.Posterior> posteriors = new LinkedHashMap<>();
    private String population = "";
    private FlagState[] states = new FlagState[0];
    private Outlook now;

    /** A probe over this knowledge base, standing on these observations. */
    public Probe(KnowledgeBase knowledge, Observations observations) {
        this.knowledge = knowledge;
        this.facts = new FindingFacts(knowledge);
        this.differential = new Differential(knowledge.settings());
        this.session = new ProbeSession(knowledge);
        List<RedFlagRow> rows = knowledge.redFlags();
        for (int i = 0; i < rows.size(); i++) {
            for (String finding : readBy(rows.get(i))) {
                rowsByFinding
                        .computeIfAbsent(finding, ignored -> new ArrayList<>())
                        .add(i);
            }
        }
        for (String condition : knowledge.conditions().keySet()) {
            evidence.put(
                    condition,
                    knowledge.evidence().about(condition).stream()
                            .sorted(Comparator.comparing(EvidenceRow::finding))
                            .toList());
        }
        this.base = observations;
        this.now = stand();
    }

    private static Set<String> readBy(RedFlagRow row) {
        Set<String> read = new HashSet<>(row.needs());
        row.appliesIf().map(Expression::findings).ifPresent(read::addAll);
        row.trigger().map(Expression::findings).ifPresent(read::addAll);
        return read;
    }

    /** Stands on these observations from now on, and returns what they come to. */
    public Outlook stand(Observations observations) {
        base = observations;
        now = stand();
        return now;
    }

    /** What it stands on. */
    public Observations observations() {
        return base;
    }

    /** What that comes to. */
    public Outlook now() {
        return now;
    }

    /** What would follow if this finding were answered so; what it stands on stays as it is. */
    public Outlook given(String finding, Recorded answer) {
        return given(base.with(finding, answer), Set.of(finding));
    }

    /** What would follow if this finding had not been asked. */
    public Outlook withheld(String finding) {
        return given(base.without(finding), Set.of(finding));
    }

    /** What would follow from these observations, which differ from where it stands in these findings only. */
    public Outlook given(Observations other, Collection<String> changed) {
        Set<String> affected = new LinkedHashSet<>();
        changed.forEach(finding -> affected.addAll(knowledge.catalogue().restingOn(finding)));
        Map<String, List<Object>> wanted = new LinkedHashMap<>();
        affected.stream().filter(knowledge.factReads()::matters).forEach(id -> wanted.put(id, facts.of(id, other)));
        session.differ(wanted);
        return outlook(other, affected);
    }

    private Outlook stand() {
        Map<String, List<Object>> wanted = new LinkedHashMap<>();
        knowledge.catalogue().findings().forEach(finding -> wanted.put(finding.id(), facts.of(finding.id(), base)));
        knowledge.catalogue().computed().forEach(finding -> wanted.put(finding.id(), facts.of(finding.id(), base)));
        session.stand(wanted);
        population = population();
        weighed = new HashMap<>(session.weighed());
        posteriors = new LinkedHashMap<>();
        for (Condition condition : knowledge.conditions().values()) {
            posteriors.put(condition.id(), posterior(condition.id(), population));
        }
        List<RedFlagRow> rows = knowledge.redFlags();
        states = new FlagState[rows.size()];
        for (int i = 0; i < states.length; i++) {
            states[i] = state(rows.get(i), base);
        }
        return told(base, states, posteriors);
    }

    private Outlook outlook(Observations other, Set<String> affected) {
        List<RedFlagRow> rows = knowledge.redFlags();
        FlagState[] decided = states.clone();
        for (String id : affected) {
            for (int i : rowsByFinding.getOrDefault(id, List.of())) {
                decided[i] = state(rows.get(i), other);
            }
        }
        for (int i = 0; i < decided.length; i++) {
            boolean raised = session.raised(rows.get(i).id());
            if (raised != (decided[i] == FlagState.RAISED)) {
                decided[i] = state(rows.get(i), other);
            }
        }
        String chosen = population();
        Map<String, Differential.Posterior> moved = new LinkedHashMap<>(posteriors);
        for (String condition :
                chosen.equals(population) ? touched() : knowledge.conditions().keySet()) {
            moved.put(condition, posterior(condition, chosen));
        }
        return told(other, decided, moved);
    }

    /** The conditions some changed finding speaks about. */
    private Set<String> touched() {
        Set<String> touched = new HashSet<>();
        Map<String, Weighed> current = session.weighed();
        for (Map.Entry<String, Weighed> entry : current.entrySet()) {
            Weighed before = weighed.get(entry.getKey());
            if (!entry.getValue().equals(before)) {
                note(entry.getValue(), touched);
                note(before, touched);
            }
        }
        for (Map.Entry<String, Weighed> entry : weighed.entrySet()) {
            if (!current.containsKey(entry.getKey())) {
                note(entry.getValue(), touched);
            }
        }
        return touched;
    }

    private static void note(@org.jspecify.annotations.Nullable Weighed one, Set<String> touched) {
        if (one != null) {
            one.rows().forEach(row -> touched.add(row.condition()));
        }
    }

    private Differential.Posterior posterior(String condition, String chosen) {
        List<Differential.Counted> counted = new ArrayList<>();
        for (EvidenceRow row : evidence.getOrDefault(condition, List.of())) {
            Weighed one = session.weighed().get(row.finding());
            if (one != null) {
                row.ratio(one.present())
                        .ifPresent(ratio -> counted.add(new Differential.Counted(row, one.present(), ratio, true)));
            }
        }
        return differential.posterior(condition, knowledge.priors().of(chosen, condition), counted);
    }

    private String population() {
        return session.populations().stream()
                .min(Comparator.comparingInt(Population::rank).thenComparing(Population::id))
                .map(Population::id)
                .orElseThrow(() -> new KnowledgeException("No rule chose a population."));
    }

    private Outlook told(
            Observations observations, FlagState[] decided, Map<String, Differential.Posterior> byCondition) {
        List<RedFlagRow> rows = knowledge.redFlags();
        Map<String, RedFlagRow> raised = new LinkedHashMap<>();
        for (int i = 0; i < decided.length; i++) {
            if (decided[i] == FlagState.RAISED) {
                raised.merge(
                        rows.get(i).flag(), rows.get(i), (a, b) -> b.urgency().compareTo(a.urgency()) > 0 ? b : a);
            }
        }
        Set<String> open = new LinkedHashSet<>();
        for (int i = 0; i < decided.length; i++) {
            RedFlagRow top = raised.get(rows.get(i).flag());
            if (decided[i] == FlagState.OPEN
                    && (top == null || rows.get(i).urgency().compareTo(top.urgency()) > 0)) {
                open.add(rows.get(i).flag());
            }
        }
        List<Differential.Posterior> possible = new ArrayList<>();
        for (Map.Entry<String, Differential.Posterior> entry : byCondition.entrySet()) {
            if (CandidateRanking.possible(knowledge.condition(entry.getKey()), observations)) {
                possible.add(entry.getValue());
            }
        }
        double sum = 0;
        for (Differential.Posterior posterior : possible) {
            sum += posterior.probability();
        }
        Map<String, Double> shares = new LinkedHashMap<>();
        for (Differential.Posterior posterior : possible) {
            shares.put(posterior.condition(), posterior.probability() / sum);
        }
        Optional<Urgency> highest =
                raised.values().stream().map(RedFlagRow::urgency).max(Urgency::compareTo);
        return new Outlook(
                highest.or(() -> open.isEmpty() ? Optional.of(Urgency.MANAGE_HERE) : Optional.empty()),
                raised,
                open,
                shares);
    }

    private FlagState state(RedFlagRow row, Observations observations) {
        return session.raised(row.id()) ? FlagState.RAISED : RowState.ofUnraised(row, observations);
    }

    @Override
    public void close() {
        session.close();
    }
}
