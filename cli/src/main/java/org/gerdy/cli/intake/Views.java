package org.gerdy.cli.intake;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.cli.Words;
import org.gerdy.cli.intake.Screen.Entry;
import org.gerdy.cli.intake.Screen.Paragraph;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.intake.NextQuestions;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** Puts the state of an intake into words. */
final class Views {
    /** Candidates named in the picture so far. */
    static final int CANDIDATES = 5;

    private final KnowledgeBase knowledge;
    private final FlagNames names;

    Views(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.names = new FlagNames(knowledge);
    }

    List<String> status(IntakeSession session) {
        Assessment assessment = session.assessment();
        return List.of(
                "Case " + assessment.caseId() + ", visit " + assessment.visit() + ", side "
                        + assessment.side().word(),
                standing(assessment));
    }

    /** Urgency and what is open, one line. */
    static String standing(Assessment assessment) {
        int open = openQuestions(assessment).size();
        String screen = open == 0
                ? "Danger screen complete."
                : "Danger screen: " + open + (open == 1 ? " question" : " questions") + " open.";
        String raised = assessment.raisedFlags().isEmpty()
                ? "No red flag raised so far. "
                : "RED FLAG, " + assessment.urgency().orElseThrow().word() + ": "
                        + assessment.raisedFlags().get(0).label() + ". ";
        return raised + screen;
    }

    static Set<String> openQuestions(Assessment assessment) {
        Set<String> ask = new LinkedHashSet<>();
        assessment.openFlags().forEach(flag -> ask.addAll(flag.ask()));
        return ask;
    }

    /** What the question asks of whom: its words, then how to do it. */
    List<Paragraph> question(IntakeSession session, FindingDefinition finding, Optional<String> side, boolean plain) {
        List<Paragraph> body = new ArrayList<>();
        body.add(new Paragraph("", finding.question()));
        side.ifPresent(one -> body.add(new Paragraph("Side: ", one)));
        session.observations()
                .recorded(finding.id())
                .ifPresent(one -> body.add(
                        new Paragraph("Recorded: ", session.observations().shown(finding.id()))));
        List<String> holding = session.heldBackBy(finding.id());
        if (!holding.isEmpty()) {
            body.add(new Paragraph("Hold back: ", names.held(session, holding)));
        }
        if (finding.kind() == Kind.CHOICE) {
            body.add(Paragraph.BLANK);
            if (plain) {
                for (int i = 0; i < finding.choices().size(); i++) {
                    body.add(
                            new Paragraph(i + 1 + "  ", finding.choices().get(i).replace('-', ' ')));
                }
            } else {
                choices(finding.choices()).forEach(line -> body.add(new Paragraph(line, "")));
            }
        }
        if (!finding.technique().isEmpty()) {
            body.add(Paragraph.BLANK);
            body.add(new Paragraph("How: ", finding.technique()));
        }
        body.add(Paragraph.BLANK);
        body.add(new Paragraph("Answer: ", takes(finding)));
        if (!finding.equipment().isEmpty()) {
            body.add(new Paragraph("Needs: ", finding.equipment().replace("|", ", ")));
        }
        return body;
    }

    /** Several questions on one screen, each whole, with its side and what is recorded. */
    List<Paragraph> together(
            IntakeSession session, List<FindingDefinition> findings, java.util.function.Function<Side, String> named) {
        List<Paragraph> body = new ArrayList<>();
        for (int i = 0; i < findings.size(); i++) {
            FindingDefinition finding = findings.get(i);
            List<Side> sides = session.sides(finding);
            String side = sides.size() > 1 && session.visit().side() == Side.BOTH
                    ? "both, painful"
                    : sides.stream().map(named).collect(Collectors.joining("; "));
            String recorded = session.observations().recorded(finding.id()).isPresent()
                    ? " [" + session.observations().shown(finding.id()) + "]"
                    : "";
            body.add(new Paragraph(
                    i + 1 + "  ",
                    finding.question()
                            + recorded
                            + (side.isEmpty() ? "" : " (" + side + ")")
                            + (finding.technique().isEmpty() ? "" : " " + finding.technique())));
        }
        return body;
    }

    private static String takes(FindingDefinition finding) {
        return switch (finding.kind()) {
            case YES_NO ->
                finding.dangerWhen().isEmpty()
                        ? "yes or no; unable if it was tried and could not be done"
                        : "yes or no; " + (finding.isReversed() ? "no" : "yes") + " is the danger sign";
            case CHOICE -> "the number of a choice";
            case DATE -> "a day, as 2026-03-02";
            case SCALE_0_10 -> "0 to 10, whole or half steps";
            case NUMBER, DURATION ->
                "a number" + (finding.unit().isEmpty() ? "" : " in " + finding.unit()) + ", "
                        + Words.number(finding.min().orElse(0)) + " to "
                        + Words.number(finding.max().orElse(0))
                        + (finding.equipment().isEmpty() ? "" : "; several trials with spaces between");
        };
    }

    /** Choices in as many columns as 76 characters hold. */
    static List<String> choices(List<String> choices) {
        int widest = choices.stream().mapToInt(String::length).max().orElse(1) + 6;
        int columns = Math.max(1, Math.min(choices.size() > 6 ? 3 : 1, 76 / widest));
        int rows = (choices.size() + columns - 1) / columns;
        List<String> lines = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            StringBuilder line = new StringBuilder();
            for (int column = 0; column < columns && column * rows + row < choices.size(); column++) {
                int index = column * rows + row;
                String entry =
                        String.format("%3d %s", index + 1, choices.get(index).replace('-', ' '));
                line.append(entry).append(" ".repeat(Math.max(1, widest - entry.length())));
            }
            lines.add(line.toString().stripTrailing());
        }
        return lines;
    }

    /** A flag that has just been raised: what to do first, then why. */
    List<Paragraph> raised(List<Flag> flags) {
        List<Paragraph> body = new ArrayList<>();
        for (Flag flag : flags) {
            Flag.Row row = flag.highest().orElseThrow();
            body.add(new Paragraph(row.urgency().word() + " (" + row.within() + "): ", row.label()));
            body.add(new Paragraph("Do now: ", row.action()));
            for (Reason reason : row.reasons()) {
                body.add(new Paragraph("Why: ", reason.because() + "."));
                body.add(new Paragraph(
                        "     ",
                        reason.findings().stream()
                                .map(read -> read.id() + " " + read.value())
                                .collect(Collectors.joining("; "))));
            }
            body.add(Paragraph.BLANK);
        }
        body.add(new Paragraph(
                "", "Everything answered so far is kept. The intake can go on, or end here with a letter."));
        return body;
    }

    List<Paragraph> why(IntakeSession session, FindingDefinition finding) {
        return new Why(knowledge).of(session, finding);
    }

    List<Paragraph> whyTogether(IntakeSession session, List<String> findings) {
        return new Why(knowledge).of(session, findings);
    }

    List<Paragraph> picture(IntakeSession session) {
        Assessment assessment = session.assessment();
        List<Paragraph> body = new ArrayList<>();
        body.add(new Paragraph(
                "Urgency: ",
                assessment.urgency().map(level -> level.word()).orElse("none raised yet; screening incomplete")
                        + assessment
                                .couldBecome()
                                .map(level -> ". It could still become " + level.word() + ".")
                                .orElse(".")));
        for (Flag flag : assessment.raisedFlags()) {
            Flag.Row row = flag.highest().orElseThrow();
            body.add(new Paragraph(
                    "  Raised: ", row.label() + ", " + row.urgency().word() + " (" + row.within() + ")"));
        }
        Set<String> open = openQuestions(assessment);
        body.add(new Paragraph(
                "Open danger questions: ",
                open.isEmpty()
                        ? "none."
                        : open.size() + ", for " + assessment.openFlags().size()
                                + (assessment.openFlags().size() == 1 ? " red flag: " : " red flags: ")
                                + String.join(", ", open.stream().limit(8).toList())
                                + (open.size() > 8 ? ", and more." : ".")));
        if (!session.setAside().isEmpty()) {
            body.add(new Paragraph("Put off: ", String.join(", ", session.setAside()) + "."));
        }
        heldBack(session).forEach(body::add);
        body.add(Paragraph.BLANK);
        body.add(new Paragraph("", "Candidates (" + assessment.population().label() + "):"));
        assessment.candidates().stream()
                .filter(candidate -> candidate.standing() != Standing.UNLIKELY)
                .limit(CANDIDATES)
                .forEach(candidate -> body.add(new Paragraph(
                        String.format("%5s  ", Words.percent(candidate.share())),
                        candidate.name() + ", " + candidate.standing().word() + " (" + Words.percent(candidate.low())
                                + " to " + Words.percent(candidate.high()) + ")")));
        assessment
                .referrals()
                .forEach(referral -> body.add(new Paragraph(
                        "Share or refer: ",
                        referral.urgency().word() + " (" + referral.within() + "): " + referral.action())));
        body.add(new Paragraph("Factors: ", factors(assessment)));
        assessment.clashes().forEach(clash -> body.add(new Paragraph("Look again: ", clash)));
        body.add(Paragraph.BLANK);
        body.add(new Paragraph("", "Shares order the candidates. They are not validated probabilities."));
        return body;
    }

    /** What counts or nearly counts as a contributing factor, and how many were looked for. */
    private static String factors(Assessment assessment) {
        List<String> told = new ArrayList<>();
        for (FactorVerdict verdict : List.of(FactorVerdict.CONTRIBUTES, FactorVerdict.BORDERLINE)) {
            assessment.factors(verdict).forEach(factor -> told.add(factor.label() + ", " + verdict.word()));
        }
        int all = assessment.factors().size();
        int looked = all - assessment.factors(FactorVerdict.NOT_MEASURED).size();
        return (told.isEmpty() ? "none found; " : String.join("; ", told) + "; ") + looked + " of " + all
                + " looked at.";
    }

    /** The tests kept for later and what they wait for. */
    private List<Paragraph> heldBack(IntakeSession session) {
        NextQuestions next = session.next();
        if (next.heldBack().isEmpty()) {
            return List.of();
        }
        Set<String> flags = new LinkedHashSet<>();
        next.heldBack().forEach(one -> flags.addAll(one.flags()));
        return List.of(new Paragraph(
                "Held back: ",
                next.heldBack().stream().map(NextQuestions.HeldBack::finding).collect(Collectors.joining(", "))
                        + "; provocative while "
                        + names.of(
                                        session,
                                        flags.stream().limit(FlagNames.NAMED).toList())
                                .toLowerCase(java.util.Locale.ROOT)
                        + (flags.size() > FlagNames.NAMED ? " and others" : "") + (flags.size() == 1 ? " is" : " are")
                        + " raised or open."));
    }

    List<Paragraph> help() {
        List<Paragraph> body = new ArrayList<>();
        for (Map.Entry<String, String> line : List.of(
                Map.entry("y  n  u", "yes, no, unable (tried, could not be done)"),
                Map.entry("1 2 3", "a choice by its number, or a number typed out and Enter"),
                Map.entry("n  1 2 3", "several on one screen: none of them; yes to that one; the rest is asked again"),
                Map.entry("i", "several on one screen: one by one instead"),
                Map.entry("o", "answer for the other side first"),
                Map.entry("l", "later: put the question off; it comes back at the end"),
                Map.entry("e", "erase the answer recorded here"),
                Map.entry("b", "back to the question before"),
                Map.entry("j", "jump to a section and see all its questions"),
                Map.entry("s", "search all questions by a word"),
                Map.entry("r", "remark, kept in the notes of the visit"),
                Map.entry("w", "why this is asked and what each answer would do"),
                Map.entry("p", "the picture so far"),
                Map.entry("f", "finish now; what is open stays open"),
                Map.entry("q", "quit; start again with the same file to go on"))) {
            body.add(new Paragraph(String.format("%-9s", line.getKey()), line.getValue()));
        }
        body.add(Paragraph.BLANK);
        body.add(new Paragraph(
                "",
                "Numbers take units (12 kgf), sides (left 130 right 138) and repeated trials (110 118 115)."
                        + " Each answer is on the disk before the next question shows."));
        return body;
    }

    List<Paragraph> offer(IntakeSession session) {
        List<Paragraph> body = new ArrayList<>();
        Assessment assessment = session.assessment();
        body.add(new Paragraph(
                "",
                assessment.screeningComplete()
                        ? "The danger screen is complete, and enough was asked to go on with. a asks further."
                        : "Screening incomplete. What is left was put off, could not be done, or is held back."));
        body.add(Paragraph.BLANK);
        body.addAll(picture(session));
        return body;
    }

    /** One line for a question in a list: number, state, words. */
    Paragraph listed(int number, FindingDefinition finding, IntakeSession session) {
        return new Paragraph(
                String.format("%3d  ", number),
                finding.question() + " [" + session.observations().shown(finding.id()) + "]");
    }

    static Entry entry(FindingDefinition finding) {
        return switch (finding.kind()) {
            case YES_NO -> Entry.key();
            case CHOICE -> Entry.choice(finding.choices().size());
            case DATE -> Entry.number("Day: ");
            case NUMBER, SCALE_0_10, DURATION ->
                Entry.number(finding.unit().isEmpty() ? "Number: " : "Number in " + finding.unit() + ": ");
        };
    }
}
