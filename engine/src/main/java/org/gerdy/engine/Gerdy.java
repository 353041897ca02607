package org.gerdy.engine;

import java.io.InputStream;
import java.nio.file.Path;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseReader;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.reasoning.CareReasoner;
import org.gerdy.engine.reasoning.Consultation;
import org.gerdy.engine.reasoning.Reasoner;

/** The engine with one knowledge base: reads cases and assesses them. Safe for use by many threads. */
public final class Gerdy {
    private final KnowledgeBase knowledge;
    private final CaseReader reader;
    private final Reasoner reasoner;
    private final CareReasoner care;

    /** The engine over this knowledge base. */
    public Gerdy(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reader = new CaseReader(knowledge.terms());
        this.reasoner = new Reasoner(knowledge);
        this.care = new CareReasoner(knowledge, CareTables.load(knowledge));
    }

    /** Reads a case file. Throws {@link MendableException} with every fault, each at its line. */
    public CaseFile read(Path file) throws MendableException {
        return reader.read(file);
    }

    /** Reads a case from a stream, named {@code name} in messages. */
    public CaseFile read(String name, InputStream in) throws MendableException {
        return reader.read(name, in);
    }

    /** Assesses the latest visit. */
    public Assessment assess(CaseFile caseFile) {
        return assess(caseFile, caseFile.latest());
    }

    /** Assesses one visit. */
    public Assessment assess(CaseFile caseFile, Visit visit) {
        return reasoner.assess(caseFile, visit);
    }

    /** Assesses one visit and works out what follows: plan, dated programmes, next look, review of scores. */
    public VisitResult visit(CaseFile caseFile, Visit visit) {
        return care.visit(caseFile, visit);
    }

    /** The tables that follow triage. */
    public CareTables careTables() {
        return care.tables();
    }

    /** Opens a living session on one visit: answers can be added, changed and taken back. Close it when done. */
    public Consultation consult(CaseFile caseFile, Visit visit) {
        return reasoner.consult(
                new Reasoner.About(caseFile.id(), visit.date(), visit.decision()),
                Observations.of(knowledge.catalogue(), caseFile, visit));
    }

    /** The knowledge base. */
    public KnowledgeBase knowledge() {
        return knowledge;
    }

    /** The reader of case files. */
    public CaseReader reader() {
        return reader;
    }
}
