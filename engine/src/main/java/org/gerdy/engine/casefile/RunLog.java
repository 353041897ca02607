package org.gerdy.engine.casefile;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;

/**
 * What one file held.
 *
 * @param sessions in file order
 * @param restDays days written down as rest
 * @param notes what was odd and how it was taken, one sentence each
 */
public record RunLog(List<Session> sessions, Set<LocalDate> restDays, List<String> notes) {
    /** Copies what it is given. */
    public RunLog {
        sessions = List.copyOf(sessions);
        restDays = Set.copyOf(restDays);
        notes = List.copyOf(notes);
    }
}
