package org.gerdy.engine.load;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.RunNotes;
import org.gerdy.engine.casefile.Session;

/**
 * Every day from the first to the last of a record, each a day with sessions, a rest day, or unknown. An unlisted day is
 * unknown, never rest, unless the runner said that everything is written down.
 */
public final class LoadHistory {
    /** What an unlisted day inside the record is taken for. */
    public enum Unlisted {
        UNKNOWN,
        REST
    }

    private final LocalDate first;
    private final LocalDate last;
    private final List<Session> sessions;
    private final double[] metres;
    private final double[] effort;
    private final boolean[] listed;
    private final long[] longest;
    private final int[] runs;
    private final List<String> notes;

    private LoadHistory(List<Session> sessions, Set<LocalDate> rest, Unlisted unlisted, List<String> notes) {
        this.sessions = List.copyOf(sessions);
        LocalDate from = LocalDate.MAX;
        LocalDate to = LocalDate.MIN;
        for (LocalDate day : days(sessions, rest)) {
            from = day.isBefore(from) ? day : from;
            to = day.isAfter(to) ? day : to;
        }
        this.first = from;
        this.last = to;
        int length = (int) (to.toEpochDay() - from.toEpochDay()) + 1;
        this.metres = new double[length];
        this.effort = new double[length];
        this.longest = new long[length];
        this.runs = new int[length];
        this.listed = new boolean[length];
        Arrays.fill(listed, unlisted == Unlisted.REST);
        for (LocalDate day : rest) {
            listed[index(day)] = true;
        }
        for (Session session : sessions) {
            add(session);
        }
        if (unlisted == Unlisted.UNKNOWN) {
            for (int i = 0; i < length; i++) {
                if (!listed[i]) {
                    metres[i] = Double.NaN;
                    effort[i] = Double.NaN;
                }
            }
        }
        this.notes = List.copyOf(notes);
    }

    private static Set<LocalDate> days(List<Session> sessions, Set<LocalDate> rest) {
        Set<LocalDate> days = new LinkedHashSet<>(rest);
        sessions.forEach(session -> days.add(session.day()));
        return days;
    }

    private void add(Session session) {
        int day = index(session.day());
        listed[day] = true;
        OptionalLong run = session.metresRun();
        metres[day] += run.isPresent() ? run.getAsLong() : Double.NaN;
        OptionalDouble load = session.effortLoad();
        effort[day] += load.isPresent() ? load.getAsDouble() : Double.NaN;
        if (session.running()) {
            longest[day] = Math.max(longest[day], run.orElse(0));
            runs[day]++;
        }
    }

    private int index(LocalDate day) {
        return (int) (day.toEpochDay() - first.toEpochDay());
    }

    /**
     * The record of one runner from any number of files. Throws {@link IllegalArgumentException} when they hold nothing.
     *
     * @param logs what the files held
     * @param unlisted what an unlisted day is taken for
     * @param settings from the knowledge base
     */
    public static LoadHistory of(List<RunLog> logs, Unlisted unlisted, LoadSettings settings) {
        List<String> notes = new ArrayList<>();
        List<Session> all = new ArrayList<>();
        Set<LocalDate> rest = new LinkedHashSet<>();
        for (RunLog log : logs) {
            notes.addAll(log.notes());
            all.addAll(log.sessions());
            rest.addAll(log.restDays());
        }
        if (all.isEmpty() && rest.isEmpty()) {
            throw new IllegalArgumentException("The files hold no session and no rest day.");
        }
        List<Session> merged = new SameRuns(settings, notes).merged(all);
        for (Session session : merged) {
            if (rest.remove(session.day())) {
                notes.add(session.day() + " is written down as rest and holds a session from " + session.source()
                        + "; the session counts.");
            }
        }
        return new LoadHistory(merged, rest, unlisted, notes);
    }

    /**
     * The record a case names, from the files beside it and the sessions written into it; empty when they hold nothing.
     * A file named at two visits and a session written down twice word for word count once. Unlisted days are rest only
     * where every visit says so.
     *
     * @param caseName names the case in messages
     * @param visits what each visit up to the present one names, oldest first
     * @param settings from the knowledge base
     */
    public static Optional<LoadHistory> of(String caseName, List<RunNotes> visits, LoadSettings settings) {
        Map<String, RunLog> files = new LinkedHashMap<>();
        Map<RunNotes.Entry, Session> written = new LinkedHashMap<>();
        Set<LocalDate> rest = new LinkedHashSet<>();
        List<String> notes = new ArrayList<>();
        for (RunNotes visit : visits) {
            visit.files().forEach(file -> files.put(file.name(), file.log()));
            visit.sessions().forEach(entry -> written.putIfAbsent(entry.onLine(0), session(caseName, entry)));
            rest.addAll(visit.restDays());
            boolean clocked = visit.files().stream()
                    .flatMap(file -> file.log().sessions().stream())
                    .anyMatch(session -> session.start().isPresent());
            if (visit.zone().isEmpty() && clocked) {
                notes.add("No time zone is given, so each day is taken in UTC; write 'zone' under runs.");
            }
        }
        List<RunLog> logs = new ArrayList<>(files.values());
        logs.add(new RunLog(
                List.copyOf(written.values()), rest, notes.stream().distinct().toList()));
        if (logs.stream()
                .allMatch(log -> log.sessions().isEmpty() && log.restDays().isEmpty())) {
            return Optional.empty();
        }
        boolean listed = visits.stream().allMatch(RunNotes::everythingListed);
        return Optional.of(of(logs, listed ? Unlisted.REST : Unlisted.UNKNOWN, settings));
    }

    private static Session session(String caseName, RunNotes.Entry entry) {
        OptionalDouble none = OptionalDouble.empty();
        return new Session(
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
                caseName + ":" + entry.line());
    }

    /** First day of the record. */
    public LocalDate first() {
        return first;
    }

    /** Last day of the record. */
    public LocalDate last() {
        return last;
    }

    /** Every session once, by day and time. */
    public List<Session> sessions() {
        return sessions;
    }

    /** What was odd, merged or left out, one sentence each. */
    public List<String> notes() {
        return notes;
    }

    /** What is summed over days. */
    public enum Amount {
        /** Metres run. */
        METRES,
        /** Session effort times minutes, all sessions. */
        EFFORT
    }

    /** The amount of one day; empty when unknown or outside the record. */
    public OptionalDouble on(LocalDate day, Amount amount) {
        int i = index(day);
        double value = i < 0 || i >= metres.length ? Double.NaN : (amount == Amount.METRES ? metres : effort)[i];
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    /** The longest single run of a day in metres, 0 when there is none. */
    long longest(LocalDate day) {
        int i = index(day);
        return i < 0 || i >= longest.length ? 0 : longest[i];
    }

    /** How many runs a day holds. */
    int runs(LocalDate day) {
        int i = index(day);
        return i < 0 || i >= runs.length ? 0 : runs[i];
    }

    /** The amounts of so many days up to {@code end}, oldest first; empty when one is unknown. */
    Optional<double[]> window(LocalDate end, int days, Amount amount) {
        double[] window = new double[days];
        for (int i = 0; i < days; i++) {
            OptionalDouble value = on(end.minusDays(days - 1L - i), amount);
            if (value.isEmpty()) {
                return Optional.empty();
            }
            window[i] = value.getAsDouble();
        }
        return Optional.of(window);
    }

    /** How many of so many days up to {@code end} are known. */
    int known(LocalDate end, int days, Amount amount) {
        int known = 0;
        for (int i = 0; i < days; i++) {
            known += on(end.minusDays(i), amount).isPresent() ? 1 : 0;
        }
        return known;
    }

    /** How many days up to {@code end} are known without a break. */
    int unbroken(LocalDate end, Amount amount) {
        int days = 0;
        while (on(end.minusDays(days), amount).isPresent()) {
            days++;
        }
        return days;
    }
}
