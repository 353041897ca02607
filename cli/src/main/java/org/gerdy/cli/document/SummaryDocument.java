package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.gerdy.cli.Words;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.cli.document.Document.Bullets;
import org.gerdy.cli.document.Document.Grid;
import org.gerdy.cli.document.Document.Heading;
import org.gerdy.cli.document.Document.Lead;
import org.gerdy.cli.document.Document.Para;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;

/** The whole visit on one page for the clinician: what matters most first. */
public final class SummaryDocument {
    private final Naming naming;
    private final CareTables tables;

    /** Summaries over this knowledge base. */
    public SummaryDocument(KnowledgeBase knowledge, CareTables tables) {
        this.naming = new Naming(knowledge);
        this.tables = tables;
    }

    /** The summary of a visit. */
    public Document of(VisitResult result, Observations observations) {
        Assessment assessment = result.assessment();
        Aftercare care = result.aftercare();
        List<Section> sections = new ArrayList<>();
        sections.add(result(assessment));
        if (!assessment.raisedFlags().isEmpty()) {
            sections.add(raised(assessment));
        }
        if (!assessment.screeningComplete()) {
            sections.add(open(assessment));
        }
        List<Document.Picture> sites = new SiteChart(naming).of(observations, tables.role(CareTables.SITE));
        if (!sites.isEmpty()) {
            sections.add(new Section("site", "Where it hurts", List.copyOf(sites)));
        }
        sections.add(candidates(assessment));
        if (!assessment.referrals().isEmpty()) {
            sections.add(new Section(
                    "referrals",
                    "Share or refer",
                    List.of(new Bullets(assessment.referrals().stream()
                            .map(referral -> referral.urgency().word() + " (" + referral.within() + "): "
                                    + referral.label() + ". " + referral.action())
                            .toList()))));
        }
        care.review().ifPresent(review -> sections.add(new ReviewSection(naming).of(review, care)));
        sections.addAll(new PlanSections(naming, tables).onSummary(care));
        sections.add(rules(assessment));
        assessment
                .decision()
                .ifPresent(decision -> sections.add(new Section(
                        "decision",
                        "The clinician's own decision",
                        List.of(new Para(decision.urgency().word() + ": " + decision.reason())))));
        sections.add(new Section("cautions", "Cautions", List.of(new Bullets(assessment.cautions()))));
        sections.add(sources(assessment, care));
        return new Document(
                "Triage summary: case " + assessment.caseId(),
                subtitle(assessment),
                sections,
                List.of(stamp(assessment)));
    }

    static String subtitle(Assessment assessment) {
        return "Case " + assessment.caseId() + ", visit " + assessment.visit() + ", "
                + assessment.side().word() + (assessment.side().each().size() > 1 ? " sides" : " side");
    }

    static String stamp(Assessment assessment) {
        return "Knowledge base " + assessment.knowledge().version() + ", sha-256 "
                + assessment.knowledge().sha256().substring(0, 12)
                + ". Decision support for licensed clinicians; it is not a diagnosis.";
    }

    private static Section result(Assessment assessment) {
        List<Block> blocks = new ArrayList<>();
        assessment.raisedFlags().stream()
                .findFirst()
                .ifPresent(top -> blocks.add(new Lead(
                        "Urgency: " + assessment.urgency().orElseThrow().word() + " ("
                                + top.highest().orElseThrow().within() + "). " + top.label() + ".")));
        if (assessment.raisedFlags().isEmpty() && assessment.screeningComplete()) {
            blocks.add(new Lead("Urgency: manage-here. Every danger question is answered; none raised a flag."));
        }
        if (!assessment.screeningComplete()) {
            Set<String> ask = new LinkedHashSet<>();
            assessment.openFlags().forEach(flag -> ask.addAll(flag.ask()));
            blocks.add(new Lead("Screening incomplete: " + ask.size()
                    + (ask.size() == 1 ? " question is" : " questions are") + " open for "
                    + assessment.openFlags().size()
                    + (assessment.openFlags().size() == 1 ? " red flag." : " red flags.")
                    + assessment
                            .couldBecome()
                            .map(urgency -> " It could still become " + urgency.word() + ".")
                            .orElse("")));
        }
        if (!assessment.clashes().isEmpty()) {
            blocks.add(new Heading("Answers that cannot stand together"));
            blocks.add(new Bullets(assessment.clashes()));
        }
        return new Section("result", "Result", blocks);
    }

    private Section raised(Assessment assessment) {
        List<Block> blocks = new ArrayList<>();
        for (Flag flag : assessment.raisedFlags()) {
            Flag.Row row = flag.highest().orElseThrow();
            blocks.add(new Heading(row.label() + ": " + row.urgency().word() + " (" + row.within() + ")"));
            blocks.add(new Para("Do: " + row.action()));
            for (Reason reason : row.reasons()) {
                blocks.add(new Para("Why: " + reason.because() + ". "
                        + String.join(
                                " ",
                                reason.findings().stream()
                                        .map(read -> naming.words().finding(read.id()) + " " + read.value() + ".")
                                        .toList())));
            }
        }
        return new Section("flags", "Red flags raised", blocks);
    }

    private Section open(Assessment assessment) {
        Set<String> ask = new LinkedHashSet<>();
        assessment.openFlags().stream()
                .sorted((a, b) ->
                        b.couldBecome().orElseThrow().compareTo(a.couldBecome().orElseThrow()))
                .forEach(flag -> ask.addAll(flag.ask()));
        return new Section(
                "open",
                "Not asked yet",
                List.of(new Bullets(ask.stream().map(naming.words()::finding).toList())));
    }

    private Section candidates(Assessment assessment) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Para(
                "Starting from the list for: " + assessment.population().label() + "."));
        blocks.add(CandidateChart.of(assessment));
        List<List<String>> rows = assessment.candidates().stream()
                .filter(candidate -> candidate.standing() != Standing.UNLIKELY)
                .limit(4)
                .map(candidate -> List.of(
                        candidate.name(),
                        Words.percent(candidate.share()) + " (" + Words.percent(candidate.low()) + " to "
                                + Words.percent(candidate.high()) + "), "
                                + candidate.standing().word(),
                        weights(candidate.supporting()),
                        weights(candidate.opposing()),
                        String.join(
                                "; ",
                                candidate.settle().stream()
                                        .limit(3)
                                        .map(naming.words()::finding)
                                        .toList())))
                .toList();
        blocks.add(new Grid(
                "What speaks for and against",
                List.of("Candidate", "Share", "For", "Against", "Would settle it"),
                rows));
        return new Section("candidates", "Candidates", blocks);
    }

    private String weights(List<CandidateResult.Weight> weights) {
        return String.join(
                "; ",
                weights.stream()
                        .filter(CandidateResult.Weight::counted)
                        .limit(4)
                        .map(weight ->
                                weight.finding().replace('-', ' ') + (weight.present() ? "" : " absent") + " (LR "
                                        + Naming.number(weight.ratio()) + ", "
                                        + weight.basis().word() + ")")
                        .toList());
    }

    private static Section rules(Assessment assessment) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Bullets(assessment.decisionRules().stream()
                .map(decision -> decision.label() + ": " + decision.outcome().word()
                        + (decision.outcome() == DecisionResult.Outcome.NOT_APPLICABLE
                                ? ", which is never a negative."
                                : ". " + decision.means()))
                .toList()));
        if (!assessment.scores().isEmpty()) {
            blocks.add(new Bullets(assessment.scores().stream()
                    .map(score -> score.label() + ": "
                            + (score.applicable()
                                    ? Naming.number(score.low())
                                            + (score.low() == score.high() ? "" : " to " + Naming.number(score.high()))
                                            + score.band()
                                                    .map(band -> ", " + band)
                                                    .orElse("")
                                    : "not applicable here")
                            + ".")
                    .toList()));
        }
        return new Section("rules", "Decision rules and scores", blocks);
    }

    private Section sources(Assessment assessment, Aftercare care) {
        Set<String> keys = new LinkedHashSet<>();
        assessment
                .raisedFlags()
                .forEach(flag ->
                        flag.highest().orElseThrow().reasons().forEach(reason -> keys.addAll(reason.sources())));
        assessment.candidates(Standing.LEADING).forEach(candidate -> {
            candidate.supporting().forEach(weight -> keys.addAll(weight.sources()));
            candidate.opposing().forEach(weight -> keys.addAll(weight.sources()));
        });
        care.active().ifPresent(active -> active.items()
                .forEach(chosen -> keys.addAll(chosen.item().evidence().sources())));
        care.review().ifPresent(review -> review.changes().forEach(change -> {
            change.threshold().error().ifPresent(row -> keys.addAll(row.sources()));
            change.threshold().important().ifPresent(row -> keys.addAll(row.sources()));
        }));
        List<String> citations = naming.citations(keys);
        return new Section(
                "sources",
                "Sources",
                List.of(citations.isEmpty() ? new Para("None beside our own judgement.") : new Bullets(citations)));
    }
}
