package org.gerdy.cli.bench;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.fact.RedFlag;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Kind;
import org.kie.api.KieServices;
import org.kie.api.runtime.KieContainer;
import org.kie.api.runtime.KieSession;

/**
 * The same rules used as the Drools documentation starts: a container over the class path, a new session for each case,
 * one fact for everything known, fire, read what was concluded.
 */
final class OrdinaryDrools {
    private final KieContainer container = KieServices.get().getKieClasspathContainer();
    private final KnowledgeBase knowledge;

    OrdinaryDrools(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** The ids of the rows raised. */
    List<String> raised(Observations answers) {
        KieSession session = container.newKieSession();
        try {
            facts(answers).forEach(session::insert);
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

    private Collection<Finding> facts(Observations answers) {
        List<Finding> facts = new ArrayList<>();
        for (var finding : knowledge.catalogue().findings()) {
            String id = finding.id();
            if (finding.kind() == Kind.CHOICE) {
                answers.choices(id).forEach(choice -> facts.add(new Finding(id, false, false, false, false, choice)));
            } else if (finding.kind() == Kind.YES_NO) {
                Truth present = answers.is(id, "present");
                Truth absent = answers.is(id, "absent");
                boolean unable = answers.isUnable(id);
                if (present != Truth.UNKNOWN || absent == Truth.TRUE || unable) {
                    facts.add(new Finding(
                            id, present == Truth.TRUE, absent == Truth.TRUE, unable, present == Truth.FALSE, ""));
                }
            }
        }
        for (var finding : knowledge.catalogue().computed()) {
            Truth truth = answers.computed(finding.id());
            if (truth != Truth.UNKNOWN) {
                boolean holds = truth == Truth.TRUE;
                facts.add(new Finding(finding.id(), holds, !holds, false, !holds, ""));
            }
        }
        return facts;
    }
}
