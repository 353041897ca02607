package org.gerdy.engine.casefile;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;

/**
 * Training as a case names it: files beside it and sessions written into it.
 *
 * @param zone the runner's time zone, if given
 * @param everythingListed the runner said that every session is there, so an unlisted day is rest
 * @param files diary, GPX or TCX files beside the case, with what they held when the case was read
 * @param sessions sessions written into the case
 * @param restDays days told as rest
 */
public record RunNotes(
        Optional<ZoneId> zone,
        boolean everythingListed,
        List<RunFile> files,
        List<Entry> sessions,
        Set<LocalDate> restDays) {
    /** A file by the name the case gives it, and what it held. */
    public record RunFile(String name, RunLog log) {}

    /**
     * One session.
     *
     * @param date the day
     * @param metres distance in whole metres, if known
     * @param seconds duration, if known
     * @param effort rating of perceived effort, 0 to 10, if asked
     * @param kind run, walk or another word; empty is run
     * @param surface surface, hill or camber, may be empty
     * @param line line of the case file
     */
    public record Entry(
            LocalDate date,
            OptionalLong metres,
            OptionalLong seconds,
            OptionalDouble effort,
            String kind,
            String surface,
            int line) {
        /** The same on another line. */
        public Entry onLine(int other) {
            return new Entry(date, metres, seconds, effort, kind, surface, other);
        }
    }
}
