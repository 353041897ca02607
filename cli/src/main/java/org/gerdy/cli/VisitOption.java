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

    /** A visit as read, with nothing concluded yet. */
    record Chosen(Gerdy gerdy, CaseFile caseFile, Visit visit) {
        Observations observations() {
            return Observations.of(gerdy.knowledge().terms(), caseFile, visit);
        }

        /** Works out the visit. */
        Looked look() {
            return new Looked(this, gerdy.visit(caseFile, visit));
        }
    }

    /** A visit with everything a document needs. */
    record Looked(Chosen chosen, VisitResult result) {
        Gerdy gerdy() {
            return chosen.gerdy();
        }

        CaseFile caseFile() {
            return chosen.caseFile();
        }

        Observations observations() {
            return chosen.observations();
        }
    }

    /** Reads the visit. */
    Chosen choose() throws MendableException {
        return choose(knowledge.gerdy(), file, Optional.ofNullable(date));
    }

    /** Reads the visit of this day in this case file, or the latest. */
    static Chosen choose(Gerdy gerdy, String file, Optional<LocalDate> date) throws MendableException {
        CaseFile caseFile = Cases.read(gerdy, file);
        return new Chosen(gerdy, caseFile, Cases.visit(caseFile, file, date));
    }

    /** Reads and works out the visit. */
    Looked look() throws MendableException {
        return choose().look();
    }

    /** The name of the file on the command line. */
    String file() {
        return file;
    }
}
