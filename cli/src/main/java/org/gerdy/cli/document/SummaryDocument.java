package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.cli.Words;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.cli.document.Document.Bullets;
import org.gerdy.cli.document.Document.Fine;
import org.gerdy.cli.document.Document.Grid;
import org.gerdy.cli.document.Document.Heading;
import org.gerdy.cli.document.Document.Lead;
import org.gerdy.cli.document.Document.Para;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.assessment.ScoreResult;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.Urgency;

/** The whole visit on one page for the clinician: what matters most first. */
public final class SummaryDocument {
    /** Candidates with a row of their own; dangerous ones beyond it are named. */
    private static final int SHOWN = 4;

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
        new FactorSection(naming).of(assessment).ifPresent(sections::add);
        if (!assessment.referrals().isEmpty()) {
            sections.add(new Section(
                    "referrals",
                    "Share or refer",
                    List.of(new Bullets(assessment.referrals().stream()
                            .map(referral -> referral.urgency().word() + " (" + referral.within() + "): "
                                    + referral.label() + ". " + referral.action())
                            .toList()))));
        }
        care.review().ifPresent(review -> sections.add(new ReviewSection(naming).onSummary(review, care)));
        sections.addAll(new PlanSections(naming, tables).onSummary(care));
        sections.add(settled(assessment));
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
                List.of(stamp(assessment)),
                Document.Print.CLOSE);
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
            if (assessment.urgency().filter(Urgency.EMERGENCY::equals).isPresent()) {
                blocks.add(new Para(Words.ACT_FIRST));
            }
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
        List<String> flagged = assessment.candidates().stream()
                .filter(candidate ->
                        candidate.mustNotMiss() && naming.words().standsGuard(candidate, assessment.raisedFlags()))
                .map(candidate -> candidate.name() + " (" + Words.percent(candidate.share()) + ")")
                .toList();
        if (!flagged.isEmpty()) {
            blocks.add(
                    new Para("Under a red flag raised above, whatever the share: " + String.join("; ", flagged) + "."));
        }
        blocks.add(CandidateChart.of(assessment));
        List<List<String>> rows = assessment.candidates().stream()
                .filter(candidate -> candidate.standing() != Standing.UNLIKELY)
                .limit(SHOWN)
                .map(candidate -> List.of(
                        candidate.name() + ", " + Words.percent(candidate.share()) + " ("
                                + Words.percent(candidate.low()) + " to " + Words.percent(candidate.high()) + "), "
                                + candidate.standing().word(),
                        Words.weights(candidate.supporting()),
                        Words.weights(candidate.opposing()),
                        candidate.settle().stream().limit(3).map(Words::plain).collect(Collectors.joining("; "))))
                .toList();
        blocks.add(new Grid(
                "What speaks for and against (LR: likelihood ratio; without a word it is this project's own judgement)",
                List.of("Candidate", "For", "Against", "Would settle it"),
                rows));
        notToBeMissed(assessment, blocks);
        return new Section("candidates", "Candidates", blocks);
    }

    /** Dangerous candidates that no row of the table tells of and that are not yet unlikely. */
    private void notToBeMissed(Assessment assessment, List<Block> blocks) {
        List<String> named = naming.words()
                .notToBeMissed(
                        assessment.candidates().stream()
                                .filter(candidate -> candidate.standing() != Standing.UNLIKELY)
                                .skip(SHOWN),
                        assessment);
        if (!named.isEmpty()) {
            blocks.add(new Para("Must not be missed and not yet made unlikely: " + String.join("; ", named) + "."));
        }
    }

    /** Rules and scores that apply, each in a line; those that do not, by name. */
    private static Section rules(Assessment assessment) {
        List<String> told = new ArrayList<>();
        List<String> outside = new ArrayList<>();
        for (DecisionResult decision : assessment.decisionRules()) {
            if (decision.outcome() == DecisionResult.Outcome.NOT_APPLICABLE) {
                outside.add(decision.label());
            } else {
                told.add(decision.label() + ": " + decision.outcome().word() + ". " + decision.means()
                        + missing(decision.unanswered()));
            }
        }
        for (ScoreResult score : assessment.scores()) {
            if (score.applicable()) {
                told.add(score.label() + ": " + Naming.number(score.low())
                        + (score.low() == score.high() ? "" : " to " + Naming.number(score.high())) + ", "
                        + score.band().orElse("no band until the rest is answered") + "."
                        + missing(score.unanswered()));
            } else {
                outside.add(score.label());
            }
        }
        if (!outside.isEmpty()) {
            told.add("Not applicable here, which is never a negative: " + String.join("; ", outside) + ".");
        }
        return new Section("rules", "Decision rules and scores", List.of(new Bullets(told)));
    }

    private static String missing(List<String> unanswered) {
        return unanswered.isEmpty() ? "" : " Missing: " + String.join(", ", unanswered) + ".";
    }

    /** Flags that call for nothing today, by name: what was cleared, and what is about other people. */
    private static Section settled(Assessment assessment) {
        List<Block> blocks = new ArrayList<>();
        named(assessment, "Cleared: ", List.of(FlagState.CLEARED, FlagState.NOT_TRIGGERED), blocks);
        named(
                assessment,
                "Not applicable here, which is never a negative: ",
                List.of(FlagState.NOT_APPLICABLE),
                blocks);
        if (blocks.isEmpty()) {
            blocks.add(new Para("None yet."));
        }
        return new Section("settled", "Red flags cleared", blocks);
    }

    private static void named(Assessment assessment, String label, List<FlagState> states, List<Block> blocks) {
        List<String> flags = assessment.flags().stream()
                .filter(flag -> states.contains(flag.state()))
                .map(Flag::label)
                .toList();
        if (!flags.isEmpty()) {
            blocks.add(new Fine(label + String.join("; ", flags) + "."));
        }
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
        Set<String> further = new LinkedHashSet<>();
        care.active().ifPresent(active -> active.items()
                .forEach(chosen -> further.addAll(chosen.item().evidence().sources())));
        care.review().ifPresent(review -> review.changes().forEach(change -> {
            change.threshold().error().ifPresent(row -> further.addAll(row.sources()));
            change.threshold().important().ifPresent(row -> further.addAll(row.sources()));
        }));
        further.removeAll(keys);
        List<String> citations = naming.citations(keys);
        List<Block> blocks = new ArrayList<>();
        blocks.add(citations.isEmpty() ? new Para("None beside our own judgement.") : new Bullets(citations));
        if (!further.isEmpty()) {
            blocks.add(new Fine("Plan and review rest on: " + String.join(", ", further)
                    + ". 'gerdy rules list sources' has each in full."));
        }
        return new Section("sources", "Sources", blocks);
    }
}
