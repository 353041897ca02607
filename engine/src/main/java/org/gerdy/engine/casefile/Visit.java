package org.gerdy.engine.casefile;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One visit.
 *
 * @param date the day of the visit
 * @param side the painful side
 * @param findings what was asked, seen and measured, by finding id
 * @param notes free text, may be empty
 * @param decision the clinician's own decision, if recorded
 * @param runs runs logged since the visit before, in order
 * @param plan what was settled about the plan
 * @param review the clinician's own decision at a review
 */
public record Visit(
        LocalDate date,
        Side side,
        Map<String, Recorded> findings,
        String notes,
        Optional<CaseFile.Decision> decision,
        List<RunEntry> runs,
        Optional<PlanEntry> plan,
        Optional<PlanEntry.Said> review) {

    /** A visit with no runs and nothing settled about a plan. */
    public Visit(
            LocalDate date,
            Side side,
            Map<String, Recorded> findings,
            String notes,
            Optional<CaseFile.Decision> decision) {
        this(date, side, findings, notes, decision, List.of(), Optional.empty(), Optional.empty());
    }
}
