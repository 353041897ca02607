package org.gerdy.cli;

import java.time.LocalDate;
import java.util.Optional;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** One visit of one case, read and worked out. */
final class VisitOption {
    @Parameters(index = "0", paramLabel = "FILE", description = "A case file, YAML or JSON; - is standard input.")
    private String file = "";

    @Option(names = "--visit", paramLabel = "DATE", description = "Which visit, as 2026-03-02; the latest by default.")
    private @Nullable LocalDate date;

    @Mixin
    private KnowledgeOption knowledge = new KnowledgeOption();

    /** A visit with everything a document needs. */
    record Looked(Gerdy gerdy, CaseFile caseFile, Visit visit, VisitResult result) {
        Observations observations() {
            return Observations.of(gerdy.knowledge().catalogue(), caseFile, visit);
        }
    }

    /** Reads and works out the visit. */
    Looked look() throws MendableException {
        Gerdy gerdy = knowledge.gerdy();
        CaseFile caseFile = Cases.read(gerdy, file);
        Visit visit = Cases.visit(caseFile, file, Optional.ofNullable(date));
        return new Looked(gerdy, caseFile, visit, gerdy.visit(caseFile, visit));
    }

    /** The name of the file on the command line. */
    String file() {
        return file;
    }
}
