package org.gerdy.engine.audit;

import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.vocabulary.Catalogue;

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

    /** What is known at its latest visit, in the words of this catalogue. */
    public Observations observations(Catalogue catalogue) {
        return Observations.of(catalogue, caseFile, caseFile.latest());
    }

    /** Whether it expects anything at all. */
    public boolean expects() {
        return caseFile.expect().isPresent();
    }
}
