package org.gerdy.engine.reasoning;

import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.knowledge.KnowledgeBase;

/**
 * One living session over one visit. Answers are added, changed and taken back; conclusions follow, because every one of
 * them rests on its facts. Gives the same assessment as reading all answers at once. For one thread; close it when done.
 */
public final class Consultation implements AutoCloseable {
    private final Reasoner reasoner;
    private final RuleSession session;
    private final Reasoner.About about;
    private Observations observations;

    Consultation(KnowledgeBase knowledge, Reasoner reasoner, Reasoner.About about, Observations observations) {
        this.reasoner = reasoner;
        this.session = new RuleSession(knowledge);
        this.about = about;
        this.observations = observations;
    }

    /** What is known now. */
    public Observations observations() {
        return observations;
    }

    /** Records an answer, new or changed, and returns what follows. */
    public Assessment answer(String finding, Recorded answer) {
        observations = observations.with(finding, answer);
        return assess();
    }

    /** Takes an answer back and returns what follows. */
    public Assessment retract(String finding) {
        observations = observations.without(finding);
        return assess();
    }

    /** What follows from what is known now. */
    public Assessment assess() {
        return reasoner.assess(session, about, observations);
    }

    /** What would follow from other observations; what is known stays as it is. */
    public Assessment wouldFollow(Observations other) {
        return reasoner.assess(session, about, other);
    }

    @Override
    public void close() {
        session.close();
    }
}
