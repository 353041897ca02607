package org.gerdy.engine.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** What a support device was measured to deliver against its setting; straight lines between the measured points, nothing outside them. */
public final class SupportAccuracy {
    private final List<Point> points;

    /**
     * One measured point.
     *
     * @param set what the device was set to
     * @param measured what it delivered
     */
    public record Point(WeightSupport set, WeightSupport measured) {}

    /** The measured points, in any order. Throws {@link IllegalArgumentException} for fewer than two or a setting twice. */
    public SupportAccuracy(List<Point> measured) {
        List<Point> sorted = new ArrayList<>(measured);
        sorted.sort(Comparator.comparingDouble(point -> point.set().percentOfWeight()));
        for (int i = 1; i < sorted.size(); i++) {
            if (sorted.get(i).set().equals(sorted.get(i - 1).set())) {
                throw new IllegalArgumentException(
                        "The setting " + sorted.get(i).set() + " was measured twice; choose.");
            }
        }
        if (sorted.size() < 2) {
            throw new IllegalArgumentException("A line needs two measured points.");
        }
        this.points = List.copyOf(sorted);
    }

    /** What is likely delivered at this setting; empty outside the measured points. */
    public Optional<WeightSupport> delivered(WeightSupport set) {
        double x = set.percentOfWeight();
        for (int i = 1; i < points.size(); i++) {
            Point before = points.get(i - 1);
            Point after = points.get(i);
            double x0 = before.set().percentOfWeight();
            double x1 = after.set().percentOfWeight();
            if (x >= x0 && x <= x1) {
                double y0 = before.measured().percentOfWeight();
                double y1 = after.measured().percentOfWeight();
                return Optional.of(WeightSupport.carrying(y0 + (y1 - y0) * (x - x0) / (x1 - x0)));
            }
        }
        return Optional.empty();
    }
}
