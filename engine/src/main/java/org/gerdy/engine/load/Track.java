package org.gerdy.engine.load;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;

/** Adds up a track point by point. Keeps the last point and a few sums, so memory does not grow with the track. */
final class Track {
    /** So many points dropped in a row say that the position moved for good. */
    private static final int MOVED_FOR_GOOD = 5;

    private static final double MILLISECONDS = 1000;

    private final LoadSettings settings;
    private final Climb climb;

    private double metres;
    private int points;
    private int placed;
    private int dropped;
    private int droppedInRow;
    private int outOfOrder;
    private int moves;
    private double latitude;
    private double longitude;
    private boolean hasPlace;
    private @Nullable Instant first;
    private @Nullable Instant last;
    private @Nullable Instant placeTime;
    private double moving;
    private double slow;
    private double longStops;
    private int pauses;
    private double rateSum;
    private int rates;

    Track(LoadSettings settings) {
        this.settings = settings;
        this.climb = new Climb(settings.climbStep());
    }

    /** A point; whatever of it is unknown is empty. */
    void add(Optional<Instant> time, OptionalDouble lat, OptionalDouble lon, OptionalDouble height) {
        points++;
        Instant now = time.orElse(null);
        Instant before = last;
        if (now != null && before != null && now.isBefore(before)) {
            outOfOrder++;
            return;
        }
        if (now != null && first == null) {
            first = now;
        }
        if (lat.isPresent() && lon.isPresent()) {
            place(now, lat.getAsDouble(), lon.getAsDouble());
        } else if (now != null && before != null) {
            step(seconds(before, now), settings.fastest());
        }
        height.ifPresent(climb::add);
        if (now != null) {
            last = now;
        }
    }

    private void place(@Nullable Instant now, double lat, double lon) {
        double seconds = now != null && placeTime != null ? seconds(placeTime, now) : Double.NaN;
        if (hasPlace) {
            double stretch = GreatCircle.metres(latitude, longitude, lat, lon);
            if (!Double.isNaN(seconds) && stretch > settings.fastest() * Math.max(seconds, 1)) {
                dropped++;
                droppedInRow++;
                if (droppedInRow < MOVED_FOR_GOOD) {
                    return;
                }
                moves++;
            } else {
                metres += stretch;
                if (!Double.isNaN(seconds) && seconds > 0) {
                    step(seconds, stretch / seconds);
                }
            }
        }
        droppedInRow = 0;
        latitude = lat;
        longitude = lon;
        hasPlace = true;
        placed++;
        placeTime = now;
    }

    private void step(double seconds, double speed) {
        if (speed < settings.pauseSpeed()) {
            slow += seconds;
        } else {
            endSlow();
            moving += seconds;
        }
    }

    private void endSlow() {
        if (slow >= settings.pauseSeconds()) {
            pauses++;
            if (slow >= settings.longStopSeconds()) {
                longStops += slow;
            }
        } else {
            moving += slow;
        }
        slow = 0;
    }

    /** A gap in the recording: nothing is added across it. */
    void gap() {
        endSlow();
        hasPlace = false;
        placeTime = null;
        gapFrom = last;
    }

    private @Nullable Instant gapFrom;

    /** Says that recording goes on at this time after a gap. */
    void resume(Optional<Instant> time) {
        if (gapFrom != null && time.isPresent() && time.get().isAfter(gapFrom)) {
            double stop = seconds(gapFrom, time.get());
            if (stop >= settings.pauseSeconds()) {
                pauses++;
            }
            if (stop >= settings.longStopSeconds()) {
                longStops += stop;
            }
        }
        gapFrom = null;
    }

    /** One reading of the step rate, both sides. */
    void rate(double stepsPerMinute) {
        if (stepsPerMinute > 0) {
            rateSum += stepsPerMinute;
            rates++;
        }
    }

    private static double seconds(Instant from, Instant to) {
        return Duration.between(from, to).toMillis() / MILLISECONDS;
    }

    Optional<Instant> first() {
        return Optional.ofNullable(first);
    }

    Optional<Instant> last() {
        return Optional.ofNullable(last);
    }

    int points() {
        return points;
    }

    /** Metres between positions; empty with fewer than two. */
    OptionalLong metres() {
        return placed < 2 ? OptionalLong.empty() : OptionalLong.of(Math.round(metres));
    }

    /** Seconds from first to last point less long stops; empty without two times. */
    OptionalLong seconds() {
        if (first == null || last == null || !last.isAfter(first)) {
            return OptionalLong.empty();
        }
        endSlow();
        return OptionalLong.of(Math.round(seconds(first, last) - longStops));
    }

    OptionalLong movingSeconds() {
        endSlow();
        return moving > 0 ? OptionalLong.of(Math.round(moving)) : OptionalLong.empty();
    }

    OptionalDouble ascent() {
        return climb.known() ? OptionalDouble.of(climb.up()) : OptionalDouble.empty();
    }

    OptionalDouble descent() {
        return climb.known() ? OptionalDouble.of(climb.down()) : OptionalDouble.empty();
    }

    OptionalDouble stepRate() {
        return rates > 0 ? OptionalDouble.of(rateSum / rates) : OptionalDouble.empty();
    }

    /** What was odd about the points, one sentence each, after the name of the track. */
    List<String> notes(String name) {
        List<String> notes = new ArrayList<>();
        if (points == 1) {
            notes.add(name + " holds one point: the day is known, distance and duration are not.");
        } else if (placed < 2) {
            notes.add(name + " holds no positions, as indoors.");
        }
        if (dropped > 0) {
            notes.add(name + ": " + dropped + (dropped == 1 ? " point was" : " points were")
                    + " dropped because nobody runs that fast"
                    + (moves > 0
                            ? "; the position moved for good " + (moves == 1 ? "once" : moves + " times")
                                    + " and the jump was not counted."
                            : "."));
        }
        if (outOfOrder > 0) {
            notes.add(name + ": " + outOfOrder
                    + (outOfOrder == 1 ? " point stands" : " points stand")
                    + " earlier than the one before and was left out.");
        }
        if (pauses > 0) {
            endSlow();
            notes.add(name + ": " + pauses + (pauses == 1 ? " pause" : " pauses")
                    + (longStops > 0
                            ? "; " + Math.round(longStops / 60) + " min of long stops taken off the duration."
                            : "."));
        }
        return notes;
    }
}
