package org.gerdy.engine.load;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.RunNotes;

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

    /** The sessions and rest days written into a case itself; {@code file} names it in messages. */
    public static RunLog of(String file, RunNotes notes) {
        List<Session> sessions = new ArrayList<>();
        for (RunNotes.Entry entry : notes.sessions()) {
            OptionalDouble none = OptionalDouble.empty();
            sessions.add(new Session(
                    entry.date(),
                    Optional.empty(),
                    entry.metres(),
                    entry.seconds(),
                    OptionalLong.empty(),
                    entry.effort(),
                    none,
                    none,
                    none,
                    Sports.isRunning(entry.kind()),
                    entry.surface(),
                    false,
                    0,
                    file + ":" + entry.line()));
        }
        return new RunLog(sessions, notes.restDays(), List.of());
    }
}
