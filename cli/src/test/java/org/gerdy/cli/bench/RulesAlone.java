package org.gerdy.cli.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.RedFlag;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.reasoning.FindingFacts;
import org.kie.api.runtime.KieSession;

/** What a triage does with the rule engine, without what comes after. */
final class RulesAlone {
    private RulesAlone() {}

    /** The ids of the rows raised. */
    static List<String> raised(KnowledgeBase knowledge, Observations answers) {
        KieSession session = knowledge.kieBase().newKieSession();
        try {
            new FindingFacts(knowledge).read(answers, Set.of()).forEach(session::insert);
            session.fireAllRules();
            List<String> raised = new ArrayList<>();
            for (Object flag : session.getObjects(RedFlag.class::isInstance)) {
                raised.add(((RedFlag) flag).row());
            }
            return raised;
        } finally {
            session.dispose();
        }
    }
}
