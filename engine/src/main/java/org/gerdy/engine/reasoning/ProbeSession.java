package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.gerdy.engine.fact.Population;
import org.gerdy.engine.fact.RedFlag;
import org.gerdy.engine.fact.Weighed;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.kie.api.event.rule.ObjectDeletedEvent;
import org.kie.api.event.rule.ObjectInsertedEvent;
import org.kie.api.event.rule.ObjectUpdatedEvent;
import org.kie.api.event.rule.RuleRuntimeEventListener;
import org.kie.api.runtime.KieSession;
import org.kie.api.runtime.rule.FactHandle;

/** A rule session whose facts are exchanged by finding; its conclusions are kept at hand as they come and go. */
final class ProbeSession implements AutoCloseable {
    private final KnowledgeBase knowledge;
    private KieSession session;
    private final Map<Object, FactHandle> handles = new HashMap<>();
    private final Map<String, List<Object>> current = new HashMap<>();
    private final Conclusions conclusions = new Conclusions();
    private Map<String, List<Object>> base = new HashMap<>();
    private Set<String> differing = new LinkedHashSet<>();

    ProbeSession(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.session = open();
    }

    private KieSession open() {
        KieSession opened = knowledge.kieBase().newKieSession();
        opened.addEventListener(conclusions);
        opened.insert(knowledge.evidence());
        return opened;
    }

    /** Stands on these facts, given for every finding. */
    void stand(Map<String, List<Object>> facts) {
        base = facts;
        differing = new LinkedHashSet<>();
        exchange(facts);
    }

    /** Differs from where it stands by the facts of these findings, and in nothing else. */
    void differ(Map<String, List<Object>> facts) {
        Map<String, List<Object>> wanted = new LinkedHashMap<>();
        for (String id : differing) {
            wanted.put(id, base.getOrDefault(id, List.of()));
        }
        wanted.putAll(facts);
        differing = new LinkedHashSet<>(facts.keySet());
        exchange(wanted);
    }

    /**
     * Exchanges facts and lets the rules follow. Drools 10.2.0 can lose track of a match when a count under a rule changes
     * (mended upstream after that release, apache/incubator-kie pull request 6707); then a fresh session is told the same.
     */
    private void exchange(Map<String, List<Object>> facts) {
        try {
            facts.forEach(this::exchange);
            session.fireAllRules();
        } catch (NullPointerException | IllegalStateException e) {
            session.dispose();
            conclusions.clear();
            handles.clear();
            current.putAll(facts);
            session = open();
            current.values().forEach(held -> held.forEach(fact -> handles.put(fact, session.insert(fact))));
            session.fireAllRules();
        }
    }

    private void exchange(String id, List<Object> wanted) {
        for (Object fact : current.getOrDefault(id, List.of())) {
            FactHandle handle = wanted.contains(fact) ? null : handles.remove(fact);
            if (handle != null) {
                session.delete(handle);
            }
        }
        for (Object fact : wanted) {
            if (!handles.containsKey(fact)) {
                handles.put(fact, session.insert(fact));
            }
        }
        current.put(id, wanted);
    }

    /** Whether some rule raises this row. */
    boolean raised(String row) {
        return conclusions.raised.containsKey(row);
    }

    /** What each known finding says about the candidates. */
    Map<String, Weighed> weighed() {
        return conclusions.weighed;
    }

    /** The populations chosen. */
    Set<Population> populations() {
        return conclusions.populations;
    }

    @Override
    public void close() {
        session.dispose();
    }

    private static final class Conclusions implements RuleRuntimeEventListener {
        private final Map<String, List<RedFlag>> raised = new HashMap<>();
        private final Map<String, Weighed> weighed = new LinkedHashMap<>();
        private final Set<Population> populations = new HashSet<>();

        void clear() {
            raised.clear();
            weighed.clear();
            populations.clear();
        }

        @Override
        public void objectInserted(ObjectInsertedEvent event) {
            if (event.getObject() instanceof RedFlag flag) {
                raised.computeIfAbsent(flag.row(), ignored -> new ArrayList<>()).add(flag);
            } else if (event.getObject() instanceof Weighed one) {
                weighed.put(one.finding(), one);
            } else if (event.getObject() instanceof Population population) {
                populations.add(population);
            }
        }

        @Override
        public void objectUpdated(ObjectUpdatedEvent event) {}

        @Override
        public void objectDeleted(ObjectDeletedEvent event) {
            if (event.getOldObject() instanceof RedFlag flag) {
                List<RedFlag> left = raised.getOrDefault(flag.row(), new ArrayList<>());
                left.remove(flag);
                if (left.isEmpty()) {
                    raised.remove(flag.row());
                }
            } else if (event.getOldObject() instanceof Weighed one) {
                weighed.remove(one.finding(), one);
            } else if (event.getOldObject() instanceof Population population) {
                populations.remove(population);
            }
        }
    }
}
