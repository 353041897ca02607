package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;

/** Every document the program writes about a visit. */
public final class CareDocuments {
    private final KnowledgeBase knowledge;
    private final CareTables tables;
    private final Naming naming;

    /** Documents over this engine's knowledge base. */
    public CareDocuments(Gerdy gerdy) {
        this.knowledge = gerdy.knowledge();
        this.tables = gerdy.careTables();
        this.naming = new Naming(knowledge);
    }

    /** The whole visit, for the clinician. */
    public Document summary(VisitResult result, Observations observations) {
        return new SummaryDocument(knowledge, tables).of(result, observations);
    }

    /** The plan, its programmes and the next look, for the clinician. */
    public Document plan(VisitResult result) {
        return new Document(
                "Plan: case " + result.assessment().caseId(),
                SummaryDocument.subtitle(result.assessment()),
                new PlanSections(naming, tables).all(result.aftercare()),
                List.of(SummaryDocument.stamp(result.assessment())),
                Document.Print.CLOSE);
    }

    /** The review of the scores and the next look; the visit is not the first. */
    public Document review(VisitResult result) {
        List<Section> sections = new ArrayList<>();
        sections.add(new ReviewSection(naming).of(result.aftercare().review().orElseThrow(), result.aftercare()));
        sections.add(new PlanSections(naming, tables).next(result.aftercare()));
        return new Document(
                "Review: case " + result.assessment().caseId(),
                SummaryDocument.subtitle(result.assessment()),
                sections,
                List.of(SummaryDocument.stamp(result.assessment())),
                Document.Print.CLOSE);
    }

    /** What follows triage in short, as plain text to stand inside another page. */
    public String afterTriage(VisitResult result) {
        List<Section> sections = new ArrayList<>();
        result.aftercare().review().ifPresent(review -> sections.add(new ReviewSection(naming).brief(review)));
        sections.addAll(new PlanSections(naming, tables).brief(result.aftercare()));
        return Rendering.sections(sections);
    }

    /** What the patient takes home. */
    public Document handout(VisitResult result) {
        return new HandoutDocument(knowledge, tables).of(result);
    }

    /** The addressees a letter can go to, label by id. */
    public Map<String, String> recipients() {
        return new LetterDocument(knowledge, tables).recipients();
    }

    /** A referral letter to this addressee. */
    public Document letter(VisitResult result, CaseFile caseFile, Observations observations, String to) {
        return new LetterDocument(knowledge, tables).of(result, caseFile, observations, to);
    }
}
