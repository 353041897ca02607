package org.gerdy.engine.reasoning;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;

/**
 * Assesses by the written logic of the rules instead of the compiled rules: the same result, no session to build, so
 * that thousands of changed knowledge bases can be tried. Rules whose logic cannot be read as an expression are named by
 * {@link #notCovered()} and conclude nothing here. For one thread.
 */
public final class LogicReasoner {
    private final KnowledgeBase knowledge;
    private final Reasoner reasoner;
    private final LogicInference inference;

    /** A reasoner over this knowledge base, which may be a variant. */
    public LogicReasoner(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reasoner = new Reasoner(knowledge);
        this.inference = new LogicInference(knowledge);
    }

    /** Assesses one visit. */
    public Assessment assess(CaseFile caseFile, Visit visit) {
        return assess(
                Reasoner.About.of(knowledge, caseFile, visit), Observations.of(knowledge.terms(), caseFile, visit));
    }

    /** Assesses what is known, named {@code id}. */
    public Assessment assess(String id, Observations observations) {
        return assess(
                new Reasoner.About(id, java.time.LocalDate.EPOCH, Optional.empty()), own(knowledge, observations));
    }

    /** The red flags, the urgency and the population of one visit; candidates, thresholds and scores are left empty. */
    public Assessment screen(CaseFile caseFile, Visit visit) {
        return screen(caseFile.id(), Observations.of(knowledge.terms(), caseFile, visit));
    }

    /** The same for what is known, named {@code id}. */
    public Assessment screen(String id, Observations observations) {
        return reasoner.screen(
                inference,
                new Reasoner.About(id, java.time.LocalDate.EPOCH, Optional.empty()),
                own(knowledge, observations));
    }

    /** The same answers in the words of a knowledge base, whose computed findings and gates may be other ones. */
    static Observations own(KnowledgeBase knowledge, Observations observations) {
        return observations.catalogue() == knowledge.catalogue()
                ? observations
                : Observations.of(knowledge.catalogue(), observations.side(), observations.recorded());
    }

    private Assessment assess(Reasoner.About about, Observations observations) {
        return reasoner.assess(inference, about, observations);
    }

    /** The ids of rules this reasoner cannot read and leaves out. */
    public List<String> notCovered() {
        return inference.notCovered();
    }

    /** The rule that reads the evidence table; empty when there is none. */
    public String weighRule() {
        return inference.weighRule();
    }
}
