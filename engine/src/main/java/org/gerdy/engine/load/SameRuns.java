package org.gerdy.engine.load;

import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.gerdy.engine.casefile.Session;

/** Finds records of one session: the same run from two files, a diary line beside a file, one run in two parts. */
final class SameRuns {
    private static final double PERCENT = 100;

    private final LoadSettings settings;
    private final List<String> notes;

    SameRuns(LoadSettings settings, List<String> notes) {
        this.settings = settings;
        this.notes = notes;
    }

    /** The sessions, each once, by day and time. */
    List<Session> merged(List<Session> all) {
        List<Session> ordered = new ArrayList<>(all);
        ordered.sort(Comparator.comparing(Session::day)
                .thenComparing(
                        session ->
                                session.start().map(OffsetDateTime::toInstant).orElse(null),
                        Comparator.nullsLast(Comparator.naturalOrder()))
                .thenComparing(Session::source));
        List<Session> kept = new ArrayList<>();
        for (Session session : ordered) {
            if (!absorbed(session, kept)) {
                kept.add(session);
            }
        }
        return joined(kept);
    }

    private boolean absorbed(Session session, List<Session> kept) {
        for (int i = kept.size() - 1; i >= 0; i--) {
            Session other = kept.get(i);
            if (java.time.temporal.ChronoUnit.DAYS.between(other.day(), session.day()) > 1) {
                return false;
            }
            boolean timed = session.start().isPresent() && other.start().isPresent();
            boolean same = timed
                    ? sameStart(session, other) || overlaps(session, other)
                    : !sameFile(session, other)
                            && session.day().equals(other.day())
                            && session.device() != other.device()
                            && session.running() == other.running()
                            && sameDistance(session, other);
            if (same) {
                boolean first = other.points() >= session.points();
                Session keep = first ? other : session;
                Session drop = first ? session : other;
                kept.set(i, keep.filledFrom(drop));
                notes.add(drop.source() + " and " + keep.source() + " are the same session of " + keep.day()
                        + "; it counts once, from " + keep.source() + ".");
                return true;
            }
        }
        return false;
    }

    private static boolean sameFile(Session one, Session two) {
        return file(one).equals(file(two));
    }

    private static String file(Session session) {
        String source = session.source();
        int end = Math.max(source.lastIndexOf(", "), source.lastIndexOf(':'));
        return end < 0 ? source : source.substring(0, end);
    }

    private boolean sameStart(Session one, Session two) {
        long apart =
                Math.abs(Duration.between(one.start().orElseThrow(), two.start().orElseThrow())
                        .toSeconds());
        return apart <= settings.sameStartSeconds() && sameDistance(one, two);
    }

    private boolean sameDistance(Session one, Session two) {
        if (one.metres().isEmpty() || two.metres().isEmpty()) {
            return one.points() <= 1 || two.points() <= 1;
        }
        long larger = Math.max(one.metres().getAsLong(), two.metres().getAsLong());
        long apart = Math.abs(one.metres().getAsLong() - two.metres().getAsLong());
        return apart * PERCENT <= larger * settings.sameDistancePercent();
    }

    /** Whether two devices ran at once for more than half of the shorter record. Nobody runs twice at one time. */
    private static boolean overlaps(Session one, Session two) {
        Optional<OffsetDateTime> endOne = end(one);
        Optional<OffsetDateTime> endTwo = end(two);
        if (endOne.isEmpty() || endTwo.isEmpty() || !one.device() || !two.device()) {
            return false;
        }
        OffsetDateTime from = later(one.start().orElseThrow(), two.start().orElseThrow());
        OffsetDateTime to = endOne.get().isBefore(endTwo.get()) ? endOne.get() : endTwo.get();
        long shared = Duration.between(from, to).toSeconds();
        return 2 * shared > Math.min(one.seconds().orElseThrow(), two.seconds().orElseThrow());
    }

    private static OffsetDateTime later(OffsetDateTime one, OffsetDateTime two) {
        return one.isAfter(two) ? one : two;
    }

    private static Optional<OffsetDateTime> end(Session session) {
        return session.seconds().isPresent()
                ? session.start()
                        .map(start -> start.plusSeconds(session.seconds().getAsLong()))
                : Optional.empty();
    }

    /** Parts of one run with a short stop between them become one session. */
    private List<Session> joined(List<Session> sessions) {
        List<Session> joined = new ArrayList<>();
        for (Session session : sessions) {
            int last = joined.size() - 1;
            if (last >= 0 && continues(joined.get(last), session)) {
                Session before = joined.get(last);
                notes.add(before.source() + " and " + session.source() + " are parts of one session of " + before.day()
                        + ", less than " + settings.joinMinutes() + " min apart; they count as one.");
                joined.set(last, together(before, session));
            } else {
                joined.add(session);
            }
        }
        return joined;
    }

    private boolean continues(Session before, Session after) {
        Optional<OffsetDateTime> end = end(before);
        if (end.isEmpty()
                || after.start().isEmpty()
                || !before.device()
                || !after.device()
                || before.running() != after.running()) {
            return false;
        }
        long stop = Duration.between(end.get(), after.start().get()).toSeconds();
        return stop >= -settings.sameStartSeconds() && stop < settings.joinMinutes() * 60L;
    }

    private static Session together(Session one, Session two) {
        return new Session(
                one.day(),
                one.start(),
                Sums.of(one.metres(), two.metres()),
                Sums.of(one.seconds(), two.seconds()),
                Sums.of(one.movingSeconds(), two.movingSeconds()),
                one.effort().isPresent() ? one.effort() : two.effort(),
                Sums.of(one.ascent(), two.ascent()),
                Sums.of(one.descent(), two.descent()),
                one.stepRate(),
                one.running(),
                one.surface().isEmpty() ? two.surface() : one.surface(),
                true,
                one.points() + two.points(),
                one.source());
    }
}
