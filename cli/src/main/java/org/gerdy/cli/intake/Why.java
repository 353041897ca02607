package org.gerdy.cli.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.cli.Words;
import org.gerdy.cli.intake.Screen.Paragraph;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.intake.Suggestion;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Says why a question is asked and what each answer would do. */
final class Why {
    private final KnowledgeBase knowledge;
    private final FlagNames names;

    Why(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.names = new FlagNames(knowledge);
    }

    List<Paragraph> of(IntakeSession session, FindingDefinition finding) {
        Suggestion suggestion = session.explain(finding.id());
        List<Paragraph> body = new ArrayList<>();
        body.add(new Paragraph("", finding.question()));
        body.add(Paragraph.BLANK);
        if (!suggestion.note().isEmpty()) {
            body.add(new Paragraph("Its place in the danger screen: ", suggestion.note()));
        }
        if (!suggestion.flags().isEmpty()) {
            body.add(new Paragraph("Red flags waiting for it: ", names.of(session, suggestion.flags()) + "."));
        }
        List<String> speaks = spokenOf(session, finding.id());
        if (!speaks.isEmpty()) {
            body.add(new Paragraph("Speaks for or against: ", String.join("; ", speaks) + "."));
        }
        body.add(Paragraph.BLANK);
        for (Suggestion.Possible possible : suggestion.possible()) {
            body.add(new Paragraph("If " + possible.answer().text() + ": ", consequence(session, possible)));
        }
        body.add(Paragraph.BLANK);
        body.add(new Paragraph(
                "Cost: ",
                Math.round(suggestion.seconds()) + " s counted, reading, equipment and provoked pain included."));
        List<String> holding = session.heldBackBy(finding.id());
        if (!holding.isEmpty()) {
            body.add(new Paragraph("Hold back: ", names.held(session, holding)));
        }
        body.add(new Paragraph("", "Chances order the questions only. They say nothing about this patient."));
        return body;
    }

    /** Why several questions stand on one screen: the place of each and the red flags waiting for it. */
    List<Paragraph> of(IntakeSession session, List<String> findings) {
        List<Paragraph> body = new ArrayList<>();
        for (int i = 0; i < findings.size(); i++) {
            Suggestion suggestion = session.explain(findings.get(i));
            body.add(new Paragraph(i + 1 + "  ", findings.get(i) + ". " + suggestion.note()));
            body.add(new Paragraph(
                    "   Red flags waiting for it: ",
                    suggestion.flags().isEmpty() ? "none." : names.of(session, suggestion.flags()) + "."));
        }
        body.add(Paragraph.BLANK);
        body.add(new Paragraph(
                "", "i asks them one by one, each with its own reason. 'None of these' records 'no' for every one."));
        return body;
    }

    /** The candidates still in play that this finding says something about, largest share first. */
    private List<String> spokenOf(IntakeSession session, String finding) {
        Set<String> conditions = knowledge.evidence().rows().stream()
                .filter(row -> row.finding().equals(finding)
                        || knowledge.catalogue().askedBehind(row.finding()).equals(Set.of(finding)))
                .map(EvidenceRow::condition)
                .collect(Collectors.toSet());
        return session.assessment().candidates().stream()
                .filter(candidate ->
                        candidate.standing() != Standing.UNLIKELY && conditions.contains(candidate.condition()))
                .limit(Views.CANDIDATES)
                .map(CandidateResult::name)
                .toList();
    }

    private String consequence(IntakeSession session, Suggestion.Possible possible) {
        Assessment now = session.assessment();
        List<String> parts = new ArrayList<>();
        Set<String> raisedNow = now.raisedFlags().stream().map(Flag::id).collect(Collectors.toSet());
        Set<String> openNow = now.openFlags().stream().map(Flag::id).collect(Collectors.toSet());
        List<String> raises = possible.then().raised().values().stream()
                .filter(row -> !raisedNow.contains(row.flag()))
                .map(RedFlagRow::label)
                .toList();
        if (!raises.isEmpty()) {
            parts.add("raises " + String.join("; ", raises)
                    + possible.then()
                            .urgency()
                            .filter(level -> !now.urgency().equals(Optional.of(level)))
                            .map(level -> " (" + level.word() + ")")
                            .orElse(""));
        }
        long closes = openNow.stream()
                .filter(flag -> !possible.then().open().contains(flag))
                .count();
        if (closes > 0) {
            parts.add("closes " + closes + " of " + openNow.size() + " open red flags");
        }
        double moved = 0;
        for (CandidateResult candidate : now.candidates()) {
            moved += Math.abs(candidate.share() - possible.then().shares().getOrDefault(candidate.condition(), 0.0));
        }
        if (moved / 2 >= 0.005) {
            parts.add("candidates move by " + Words.percent(moved / 2));
        }
        return (parts.isEmpty() ? "nothing changes" : String.join(", ", parts)) + " (taken as "
                + Words.percent(possible.chance()) + " likely).";
    }
}
