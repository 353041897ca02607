package org.gerdy.engine.review;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;

/** One instrument over the visits: complete scores only, of the same parts each time. */
record Series(Instrument instrument, List<Point> points) {
    record Point(LocalDate date, double total) {}

    static Series of(Instrument instrument, List<ScoreVisit> ordered) {
        Set<String> parts = new TreeSet<>();
        List<Point> points = new ArrayList<>();
        for (ScoreVisit visit : ordered) {
            if (parts.isEmpty()) {
                parts = visit.recorded(instrument.findings());
            }
            OptionalDouble mean = visit.mean(parts);
            if (mean.isPresent()) {
                if (!instrument.canBe(mean.getAsDouble())) {
                    throw new IllegalArgumentException(instrument.label() + " cannot be " + mean.getAsDouble()
                            + " (visit of " + visit.date() + ").");
                }
                points.add(new Point(visit.date(), mean.getAsDouble()));
            }
        }
        return new Series(instrument, List.copyOf(points));
    }

    LocalDate first() {
        return points.isEmpty() ? LocalDate.MAX : points.get(0).date();
    }

    double baseline() {
        return points.get(0).total();
    }

    OptionalDouble at(LocalDate day) {
        return points.stream()
                .filter(point -> point.date().equals(day))
                .mapToDouble(Point::total)
                .findFirst();
    }
}
