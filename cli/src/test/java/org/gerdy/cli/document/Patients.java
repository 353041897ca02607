package org.gerdy.cli.document;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.rules.LateralKnee;

/** A runner on the way back, a first visit, an emergency and a teenager with a tender bone; and their documents. */
final class Patients {
    static final Gerdy GERDY = LateralKnee.gerdy();
    static final CareDocuments DOCUMENTS = new CareDocuments(GERDY);
    static final Path CASES = Path.of(System.getProperty("gerdy.root"), "cases");

    private Patients() {}

    static List<CaseFile> all() {
        return List.of(demo("review.yaml"), demo("first-visit.yaml"), test("hot.yaml"), test("teenager.yaml"));
    }

    static CaseFile demo(String name) {
        try {
            return GERDY.read(CASES.resolve("demo").resolve(name));
        } catch (MendableException e) {
            throw new AssertionError(e);
        }
    }

    static CaseFile test(String name) {
        try (InputStream in = Patients.class.getResourceAsStream("/cases/" + name)) {
            return GERDY.read(name, in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (MendableException e) {
            throw new AssertionError(e);
        }
    }

    static VisitResult result(CaseFile caseFile) {
        return GERDY.visit(caseFile, caseFile.latest());
    }

    static Observations observations(CaseFile caseFile, Visit visit) {
        return Observations.of(GERDY.knowledge().terms(), caseFile, visit);
    }

    /** Every document of every patient, by a name that says which. */
    static Map<String, Document> documents() {
        Map<String, Document> documents = new LinkedHashMap<>();
        for (CaseFile caseFile : all()) {
            VisitResult result = result(caseFile);
            Observations observations = observations(caseFile, caseFile.latest());
            documents.put(caseFile.id() + " summary", DOCUMENTS.summary(result, observations));
            documents.put(caseFile.id() + " plan", DOCUMENTS.plan(result));
            documents.put(caseFile.id() + " handout", DOCUMENTS.handout(result));
            documents.put(
                    caseFile.id() + " letter", DOCUMENTS.letter(result, caseFile, observations, "Orthopaedic service"));
            if (result.aftercare().review().isPresent()) {
                documents.put(caseFile.id() + " review", DOCUMENTS.review(result));
            }
        }
        return documents;
    }
}
