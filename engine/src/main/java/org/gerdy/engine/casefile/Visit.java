package org.gerdy.engine.casefile;

import java.time.LocalDate;
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
 */
public record Visit(
        LocalDate date,
        Side side,
        Map<String, Recorded> findings,
        String notes,
        Optional<CaseFile.Decision> decision,
        Map<String, Measured> measures,
        Optional<RunNotes> runs) {

    /** A visit without measures and runs. */
    public Visit(
            LocalDate date,
            Side side,
            Map<String, Recorded> findings,
            String notes,
            Optional<CaseFile.Decision> decision) {
        this(date, side, findings, notes, decision, Map.of(), Optional.empty());
    }
}
