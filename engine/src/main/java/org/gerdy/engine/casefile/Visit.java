package org.gerdy.engine.casefile;

import java.time.LocalDate;
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
 */
public record Visit(
        LocalDate date,
        Side side,
        Map<String, Recorded> findings,
        String notes,
        Optional<CaseFile.Decision> decision) {}
