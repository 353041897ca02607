package org.gerdy.cli.intake;

import java.util.stream.Collectors;
import org.gerdy.cli.Page;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** A plain letter to whoever sees the patient next: what was found, how soon, what was not asked. */
final class Letter {
    private Letter() {}

    static String of(IntakeSession session) {
        Assessment assessment = session.assessment();
        Page page = new Page();
        page.line("To the receiving clinician");
        page.blank();
        page.line("Case " + assessment.caseId() + ", seen on " + assessment.visit() + ", side "
                + assessment.side().word() + ".");
        if (assessment.raisedFlags().isEmpty()) {
            page.hanging("", "No red flag was raised.");
        }
        for (Flag flag : assessment.raisedFlags()) {
            Flag.Row row = flag.highest().orElseThrow();
            page.blank();
            page.hanging(row.label() + ": ", 2, row.urgency().word() + " (" + row.within() + ").");
            page.hanging("  Asked of you: ", 4, row.action());
            for (Reason reason : row.reasons()) {
                page.hanging(
                        "  Found: ",
                        4,
                        reason.findings().stream()
                                .map(read -> read.id() + " " + read.value())
                                .collect(Collectors.joining("; ")));
            }
        }
        page.heading("All answers");
        for (FindingDefinition finding : session.observations().catalogue().findings()) {
            if (session.observations().recorded(finding.id()).isPresent()) {
                page.hanging(
                        "- ", finding.question() + " " + session.observations().shown(finding.id()));
            }
        }
        if (!assessment.screeningComplete()) {
            page.heading("Not yet asked or not settled");
            page.hanging("", String.join(", ", Views.openQuestions(assessment)) + ".");
        }
        if (!session.visit().notes().isBlank()) {
            page.heading("Notes");
            session.visit().notes().lines().forEach(line -> page.hanging("", line));
        }
        page.heading("Please note");
        assessment.cautions().forEach(caution -> page.hanging("- ", caution));
        return page.toString();
    }
}
