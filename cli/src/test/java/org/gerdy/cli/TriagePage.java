package org.gerdy.cli;

import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;

/** The page a triage prints, for programs of the benchmarks that start the rules another way. */
public final class TriagePage {
    private TriagePage() {}

    /** The page of the case's latest visit. */
    public static String of(Gerdy gerdy, CaseFile caseFile) {
        return new Summary(gerdy.knowledge()).of(gerdy.assess(caseFile), caseFile);
    }
}
