package org.gerdy.engine;

import java.io.InputStream;
import java.nio.file.Path;
import java.util.List;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseReader;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.load.RunFiles;
import org.gerdy.engine.reasoning.CareReasoner;
import org.gerdy.engine.reasoning.Consultation;
import org.gerdy.engine.reasoning.Reasoner;
import org.jspecify.annotations.Nullable;

/** The engine with one knowledge base: reads cases and assesses them. Safe for use by many threads. */
public final class Gerdy {
    private final KnowledgeBase knowledge;
    private final CaseReader reader;
    private final Reasoner reasoner;
    private @Nullable CareReasoner care;

    /** The engine over this knowledge base. */
    public Gerdy(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reader = new CaseReader(
                knowledge.terms(), (file, zone) -> new RunFiles(zone, knowledge.loadSettings()).read(file));
        this.reasoner = new Reasoner(knowledge);
    }

    /** Reads a case file and the run files it names. Throws {@link MendableException} with every fault, each at its line. */
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

    /** Judges the contributing factors of one visit and nothing else; no rule is run. */
    public List<FactorResult> factors(CaseFile caseFile, Visit visit) {
        return reasoner.factors(
                Reasoner.About.of(knowledge, caseFile, visit), Observations.of(knowledge.terms(), caseFile, visit));
    }

    /** Assesses one visit and works out what follows: plan, dated programmes, next look, review of scores. */
    public VisitResult visit(CaseFile caseFile, Visit visit) {
        return care().visit(caseFile, visit);
    }

    /** The tables that follow triage. */
    public CareTables careTables() {
        return care().tables();
    }

    /** Made on first use: an embedder that only triages never reads the tables of plans. */
    private synchronized CareReasoner care() {
        CareReasoner made = care;
        if (made == null) {
            made = new CareReasoner(knowledge, CareTables.load(knowledge));
            care = made;
        }
        return made;
    }

    /** Opens a living session on one visit: answers can be added, changed and taken back. Close it when done. */
    public Consultation consult(CaseFile caseFile, Visit visit) {
        return reasoner.consult(
                Reasoner.About.of(knowledge, caseFile, visit), Observations.of(knowledge.terms(), caseFile, visit));
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
