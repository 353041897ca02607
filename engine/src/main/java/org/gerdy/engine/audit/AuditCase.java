package org.gerdy.engine.audit;

import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Terms;

/**
 * One case of an audit.
 *
 * @param place where it stands: the file, and the line in a file of many
 * @param caseFile the case
 */
public record AuditCase(String place, CaseFile caseFile) {
    /** The case's id. */
    public String id() {
        return caseFile.id();
    }

    /** What is known at its latest visit, in these words. */
    public Observations observations(Terms terms) {
        return Observations.of(terms, caseFile, caseFile.latest());
    }

    /** Whether it expects anything at all. */
    public boolean expects() {
        return caseFile.expect().isPresent();
    }
}
