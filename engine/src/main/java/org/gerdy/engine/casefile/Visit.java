package org.gerdy.engine.casefile;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.measure.Measured;

/**
 * One visit.
 *
 * @param date the day of the visit
 * @param side the painful side
 * @param findings what was asked, seen and measured, by finding id
 * @param notes free text, may be empty
 * @param decision the clinician's own decision, if recorded
 * @param measures measures with their trials, by measure id
 * @param runs training named or written down at this visit, if any
 * @param runLog runs logged since the visit before, in order
 * @param plan what was settled about the plan
 * @param review the clinician's own decision at a review
 */
public record Visit(
        LocalDate date,
        Side side,
        Map<String, Recorded> findings,
        String notes,
        Optional<CaseFile.Decision> decision,
        Map<String, Measured> measures,
        Optional<RunNotes> runs,
        List<RunEntry> runLog,
        Optional<PlanEntry> plan,
        Optional<PlanEntry.Said> review) {

    /** A visit without measures, runs or anything settled about a plan. */
    public Visit(
            LocalDate date,
            Side side,
            Map<String, Recorded> findings,
            String notes,
            Optional<CaseFile.Decision> decision) {
        this(
                date,
                side,
                findings,
                notes,
                decision,
                Map.of(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                Optional.empty());
    }

    /** The same visit with other findings and notes; everything else stays. */
    public Visit with(Map<String, Recorded> otherFindings, String otherNotes) {
        return new Visit(date, side, otherFindings, otherNotes, decision, measures, runs, runLog, plan, review);
    }
}
