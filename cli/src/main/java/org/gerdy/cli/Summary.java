package org.gerdy.cli;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.DecisionResult.Outcome;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.assessment.ReferralResult;
import org.gerdy.engine.assessment.ScoreResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.Urgency;

/** An assessment as a page of plain text, what matters most first. */
final class Summary {
    /** Candidates shown in full; the rest are named. */
    private static final int SHOWN = 5;

    /** Open questions shown; those of the highest urgency come first. */
    private static final int ASKED = 15;

    private final Words words;

    Summary(KnowledgeBase knowledge) {
        this.words = new Words(knowledge);
    }

    /** The page. */
    String of(Assessment assessment, CaseFile caseFile) {
        return of(assessment, caseFile, "");
    }

    /** The page with more text before the cautions. */
    String of(Assessment assessment, CaseFile caseFile, String more) {
        Page page = new Page();
        if (!caseFile.title().isEmpty()) {
            page.hanging("", caseFile.title() + ".");
        }
        page.hanging(
                "Triage: ",
                2,
                "case " + assessment.caseId() + ", visit " + assessment.visit() + ", "
                        + assessment.side().word() + (assessment.side().each().size() > 1 ? " sides" : " side"));
        String person = Stream.of("age", "sex", "activity")
                .flatMap(id -> Optional.ofNullable(caseFile.patient().get(id)).stream()
                        .flatMap(recorded -> recorded.on(Side.LEFT).stream())
                        .map(answer -> id + " " + answer.text()))
                .collect(Collectors.joining(", "));
        page.line(person.isEmpty() ? "Nothing recorded about the person." : "Patient: " + person);
        headline(page, assessment);
        clashes(page, assessment);
        raised(page, assessment);
        open(page, assessment);
        candidates(page, assessment);
        Factors.section(page, assessment);
        referrals(page, assessment);
        instruments(page, assessment);
        decision(page, assessment);
        if (!more.isEmpty()) {
            page.blank();
            more.lines().forEach(page::line);
        }
        page.heading("Cautions");
        assessment.cautions().forEach(caution -> page.hanging("- ", caution));
        page.blank()
                .line("Knowledge base " + assessment.knowledge().version() + ", sha-256 "
                        + assessment.knowledge().sha256().substring(0, 12)
                        + ". 'gerdy explain' shows each reason.");
        return page.toString();
    }

    private static void headline(Page page, Assessment assessment) {
        page.heading("Result");
        boolean complete = assessment.screeningComplete();
        assessment.raisedFlags().stream()
                .findFirst()
                .ifPresent(top -> page.hanging(
                        "Urgency: ",
                        assessment.urgency().orElseThrow().word() + " ("
                                + top.highest().orElseThrow().within() + "): " + top.label() + "."));
        if (assessment.raisedFlags().isEmpty() && complete) {
            page.line("Urgency: manage-here. Every danger question is answered; none raised a flag.");
        }
        if (!complete) {
            Set<String> ask = new LinkedHashSet<>();
            assessment.openFlags().forEach(flag -> ask.addAll(flag.ask()));
            String rise = assessment
                    .couldBecome()
                    .map(urgency -> " It could still become " + urgency.word() + ".")
                    .orElse("");
            page.hanging(
                    "Screening incomplete: ",
                    2,
                    ask.size() + (ask.size() == 1 ? " question is" : " questions are") + " open for "
                            + assessment.openFlags().size()
                            + (assessment.openFlags().size() == 1 ? " red flag." : " red flags.") + rise);
            if (isEmergency(assessment)) {
                page.line(Words.ACT_FIRST);
            }
        } else if (!assessment.raisedFlags().isEmpty()) {
            page.line("Screening complete: no other red flag is open.");
        }
    }

    private static boolean isEmergency(Assessment assessment) {
        return assessment.urgency().filter(Urgency.EMERGENCY::equals).isPresent();
    }

    private static void clashes(Page page, Assessment assessment) {
        if (!assessment.clashes().isEmpty()) {
            page.heading("Answers that cannot stand together");
            assessment.clashes().forEach(clash -> page.hanging("- ", clash));
        }
    }

    private static void raised(Page page, Assessment assessment) {
        if (assessment.raisedFlags().isEmpty()) {
            return;
        }
        page.heading("Red flags raised");
        boolean first = true;
        for (Flag flag : assessment.raisedFlags()) {
            if (!first) {
                page.blank();
            }
            first = false;
            Flag.Row row = flag.highest().orElseThrow();
            page.hanging(row.urgency().word() + " (" + row.within() + "): ", 2, row.label());
            page.hanging("  Do:      ", row.action());
            for (Reason reason : row.reasons()) {
                page.hanging("  Why:     ", reason.because() + ".");
                page.hanging(
                        "           ",
                        reason.findings().stream()
                                .map(read -> read.id() + ": " + read.value())
                                .collect(Collectors.joining("; ")));
            }
            page.hanging("  Sources: ", sources(row.reasons()));
        }
    }

    private static String sources(List<Reason> reasons) {
        Set<String> keys = new LinkedHashSet<>();
        Set<String> bases = new LinkedHashSet<>();
        for (Reason reason : reasons) {
            keys.addAll(reason.sources());
            bases.add(reason.basis().word());
        }
        String basis = " (" + String.join(", ", bases) + ")";
        return keys.isEmpty() ? "none" + basis : String.join(", ", keys) + basis;
    }

    private void open(Page page, Assessment assessment) {
        if (assessment.screeningComplete()) {
            return;
        }
        page.heading(isEmergency(assessment) ? "Not asked yet" : "Ask next, to complete the screen");
        Set<String> ask = new LinkedHashSet<>();
        assessment.openFlags().stream()
                .sorted((a, b) ->
                        b.couldBecome().orElseThrow().compareTo(a.couldBecome().orElseThrow()))
                .forEach(flag -> ask.addAll(flag.ask()));
        ask.stream().limit(ASKED).forEach(finding -> page.hanging("- ", words.finding(finding) + " [" + finding + "]"));
        if (ask.size() > ASKED) {
            page.line("and " + (ask.size() - ASKED) + " more; 'gerdy explain' lists them flag by flag.");
        }
    }

    private void candidates(Page page, Assessment assessment) {
        page.heading("Candidates (" + assessment.population().label() + ")");
        List<String> flagged = assessment.candidates().stream()
                .filter(candidate -> candidate.mustNotMiss() && words.standsGuard(candidate, assessment.raisedFlags()))
                .map(candidate -> candidate.name() + " (" + Words.percent(candidate.share()) + ")")
                .toList();
        if (!flagged.isEmpty()) {
            page.hanging("Under a red flag raised above, whatever the share: ", 2, String.join("; ", flagged) + ".");
            page.blank();
        }
        int shown = 0;
        for (CandidateResult candidate : assessment.candidates()) {
            if (candidate.standing() == Standing.UNLIKELY || shown == SHOWN) {
                break;
            }
            shown++;
            String share = Words.percent(candidate.share());
            page.hanging(
                    " ".repeat(4 - share.length()) + share + "  ",
                    candidate.name() + ", " + candidate.standing().word() + " (" + Words.percent(candidate.low())
                            + " to " + Words.percent(candidate.high()) + ")");
            evidence(page, "for:     ", candidate.supporting());
            evidence(page, "against: ", candidate.opposing());
            if (!candidate.settle().isEmpty()) {
                page.hanging(
                        "      settle:  ",
                        String.join(
                                ", ",
                                candidate.settle().stream().map(Words::plain).toList()));
            }
        }
        page.blank().line("Likelihood ratios (LR) without a word are this project's own judgement.");
        List<String> guarded =
                words.notToBeMissed(assessment.candidates().stream().skip(shown), assessment);
        if (!guarded.isEmpty()) {
            page.hanging("Must not be missed and not yet made unlikely: ", 2, String.join("; ", guarded) + ".");
        }
    }

    private static void evidence(Page page, String label, List<CandidateResult.Weight> weights) {
        String told = Words.weights(weights);
        if (!told.isEmpty()) {
            page.hanging("      " + label, told);
        }
    }

    private static void referrals(Page page, Assessment assessment) {
        List<ReferralResult> told = assessment.referrals().stream()
                .filter(referral ->
                        referral.urgency().compareTo(assessment.urgency().orElse(Urgency.MANAGE_HERE)) >= 0)
                .toList();
        if (told.isEmpty()) {
            return;
        }
        page.heading("Share or refer");
        if (!assessment.raisedFlags().isEmpty()) {
            page.hanging("", "From the leading candidates. None of this delays the urgency above.");
        }
        for (ReferralResult referral : told) {
            page.hanging(
                    "- ",
                    referral.urgency().word() + " (" + referral.within() + "): " + referral.label() + ". "
                            + referral.action());
        }
    }

    private void instruments(Page page, Assessment assessment) {
        List<DecisionResult> told = assessment.decisionRules().stream()
                .filter(decision -> decision.outcome() != Outcome.NOT_APPLICABLE)
                .toList();
        List<String> outside = assessment.decisionRules().stream()
                .filter(decision -> decision.outcome() == Outcome.NOT_APPLICABLE)
                .map(DecisionResult::label)
                .toList();
        page.heading("Decision rules and scores");
        for (DecisionResult decision : told) {
            String met = decision.met().isEmpty() ? "" : " (" + String.join(", ", decision.met()) + ")";
            page.hanging(
                    "- ",
                    decision.label() + ": " + decision.outcome().word() + met + ". " + decision.means()
                            + (decision.unanswered().isEmpty()
                                    ? ""
                                    : " Missing: " + String.join(", ", decision.unanswered()) + "."));
        }
        for (ScoreResult score : assessment.scores()) {
            page.hanging("- ", score(score));
        }
        if (!outside.isEmpty()) {
            page.hanging("- Not applicable here, which is never a negative: ", 2, String.join("; ", outside) + ".");
        }
    }

    private static String score(ScoreResult score) {
        if (!score.applicable()) {
            return score.label() + ": not applicable here.";
        }
        String total = score.low() == score.high()
                ? Words.number(score.low())
                : Words.number(score.low()) + " to " + Words.number(score.high());
        String band = score.band().orElse("no band until the rest is answered");
        String missing = score.unanswered().isEmpty() ? "" : " Missing: " + String.join(", ", score.unanswered()) + ".";
        return score.label() + ": " + total + ", " + band + "." + missing;
    }

    private static void decision(Page page, Assessment assessment) {
        assessment.decision().ifPresent(decision -> {
            page.heading("The clinician's own decision");
            page.hanging("", decision.urgency().word() + ": " + decision.reason());
        });
    }
}
