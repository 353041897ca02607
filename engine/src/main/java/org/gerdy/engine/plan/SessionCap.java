package org.gerdy.engine.plan;

import java.time.LocalDate;
import java.util.Collection;
import java.util.OptionalLong;

/**
 * How long one session may be against the longest of the days before it. Works in whole metres, so that the edge is
 * exact. There is no cap by week and no ratio of weeks.
 *
 * @param percent of the longest session, such as 110
 * @param windowDays how many days before the session count
 * @param startMetres what is allowed when the window holds no session, metres
 * @param stepMetres distances are rounded down to this, metres
 */
public record SessionCap(int percent, int windowDays, long startMetres, long stepMetres) {
    /** Throws {@link IllegalArgumentException} for a cap under 100 % or a window, start or step of nothing. */
    public SessionCap {
        if (percent < 100 || windowDays < 1 || startMetres < 1 || stepMetres < 1) {
            throw new IllegalArgumentException("A session cap needs at least 100 %, a day, a metre and a step.");
        }
    }

    /**
     * A session that counts towards the longest.
     *
     * @param date the day
     * @param metres distance, metres
     */
    public record Done(LocalDate date, long metres) {}

    /** The longest session of the window that ends the day before {@code date}, metres; empty when it holds none. */
    public OptionalLong longest(LocalDate date, Collection<Done> done) {
        return done.stream()
                .filter(run -> run.date().isBefore(date)
                        && !run.date().isBefore(date.minusDays(windowDays))
                        && run.metres() > 0)
                .mapToLong(Done::metres)
                .max();
    }

    /** The longest session allowed on this day, metres. */
    public long allowed(LocalDate date, Collection<Done> done) {
        OptionalLong longest = longest(date, done);
        long grown = longest.isEmpty() ? 0 : down(longest.getAsLong() * percent / 100);
        return Math.max(startMetres, grown);
    }

    /** The next distance after this one, metres. */
    public long grow(long metres) {
        return down(metres * percent / 100);
    }

    private long down(long metres) {
        return metres / stepMetres * stepMetres;
    }
}
