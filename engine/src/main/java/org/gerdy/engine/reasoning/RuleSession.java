package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Candidate;
import org.gerdy.engine.fact.Conclusion;
import org.gerdy.engine.fact.EvidenceFinding;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.jspecify.annotations.Nullable;
import org.kie.api.runtime.KieSession;
import org.kie.api.runtime.rule.FactHandle;

/** One living rule session. Facts are brought in line with what is known; conclusions follow and disappear with their cause. */
final class RuleSession implements Inference, AutoCloseable {
    private final KnowledgeBase knowledge;
    private final FindingFacts findings;
    private KieSession session;
    private final Map<Object, FactHandle> facts = new HashMap<>();
    private final Set<String> told = new HashSet<>();
    private @Nullable Observations known;

    RuleSession(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.findings = new FindingFacts(knowledge);
        this.session = knowledge.kieBase().newKieSession();
        insert(knowledge.evidence());
    }

    /** Brings the facts about findings in line with these observations and lets the rules follow. */
    @Override
    public void observe(Observations observations) {
        known = observations;
        settle(Finding.class, new HashSet<>(findings.read(observations, told)));
    }

    @Override
    public void weigh(Observations observations) {
        settle(EvidenceFinding.class, new HashSet<>(findings.evidence(observations)));
    }

    /** Brings the candidates in line with the differential and lets the rules follow. */
    @Override
    public void conclude(Collection<Candidate> candidates) {
        know(Candidate.class, candidates);
    }

    /** Brings the facts of one kind in line with these and lets the rules follow; some rules read findings only now. */
    void know(Class<?> kind, Collection<?> wanted) {
        Observations observations = known;
        if (told.add(kind.getSimpleName())
                && observations != null
                && knowledge.factReads().waitsFor(kind.getSimpleName())) {
            observe(observations);
        }
        settle(kind, new HashSet<>(wanted));
    }

    /** Everything concluded of a kind. */
    @Override
    public <T extends Conclusion> List<T> conclusions(Class<T> kind) {
        List<T> found = new ArrayList<>();
        for (Object object : session.getObjects(kind::isInstance)) {
            found.add(kind.cast(object));
        }
        return found;
    }

    /**
     * Aligns and fires. Drools 10.2.0 can lose track of a match when a count under a rule changes (mended upstream after
     * that release, apache/incubator-kie pull request 6707); then the same facts are told to a fresh session.
     */
    private void settle(Class<?> kind, Set<?> wanted) {
        try {
            align(kind, wanted);
            session.fireAllRules();
        } catch (NullPointerException | IllegalStateException e) {
            List<Object> told = new ArrayList<>(wanted);
            facts.keySet().stream().filter(fact -> !kind.isInstance(fact)).forEach(told::add);
            session.dispose();
            session = knowledge.kieBase().newKieSession();
            facts.clear();
            told.forEach(this::insert);
            session.fireAllRules();
        }
    }

    private void align(Class<?> kind, Set<?> wanted) {
        List<Object> gone = facts.keySet().stream()
                .filter(fact -> kind.isInstance(fact) && !wanted.contains(fact))
                .collect(Collectors.toList());
        for (Object fact : gone) {
            session.delete(facts.remove(fact));
        }
        for (Object fact : wanted) {
            if (!facts.containsKey(fact)) {
                insert(fact);
            }
        }
    }

    private void insert(Object fact) {
        facts.put(fact, session.insert(fact));
    }

    @Override
    public void close() {
        session.dispose();
    }
}
