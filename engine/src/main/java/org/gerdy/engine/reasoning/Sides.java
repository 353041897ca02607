package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.assessment.Gauge;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.measure.FactorDefinition.Direction;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.MeasuredValue;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.measure.SideDifference;

/** One measure's numbers on both sides, seen from the painful one. */
final class Sides {
    final MeasureDefinition measure;
    final Measured measured;
    private final OptionalDouble left;
    private final OptionalDouble right;
    private final List<String> notes = new ArrayList<>();

    Sides(MeasureDefinition measure, Measured measured) {
        this.measure = measure;
        this.measured = measured;
        this.left = value("left", measured.left());
        this.right = value("right", measured.right());
    }

    private OptionalDouble value(String side, Optional<Readings> readings) {
        if (readings.isEmpty()) {
            return OptionalDouble.empty();
        }
        if (readings.get().series().containsKey("total")) {
            return readings.get().series().get("total").get(0);
        }
        MeasuredValue value = MeasuredValue.of(measure, readings.get());
        value.notes().forEach(note -> notes.add(side + ": " + note));
        return value.value();
    }

    /** What to know of the readings, one sentence each. */
    List<String> notes() {
        return notes;
    }

    OptionalDouble on(Side side) {
        return side == Side.LEFT ? left : right;
    }

    /** Each side's number as marks of a picture, the painful side first. */
    List<Gauge.Mark> marks(Side painful) {
        return marks(painful, left, right);
    }

    /** Two numbers as marks of a picture, the painful side first. */
    static List<Gauge.Mark> marks(Side painful, OptionalDouble left, OptionalDouble right) {
        List<Gauge.Mark> marks = new ArrayList<>();
        for (Side side : painful == Side.RIGHT ? List.of(Side.RIGHT, Side.LEFT) : List.of(Side.LEFT, Side.RIGHT)) {
            (side == Side.LEFT ? left : right).ifPresent(value -> marks.add(new Gauge.Mark(side.word(), value)));
        }
        return marks;
    }

    /** The number of the painful side; with both painful the one further the way that counts. */
    OptionalDouble affected(Side painful, Direction direction) {
        if (painful != Side.BOTH) {
            return on(painful);
        }
        if (left.isEmpty() || right.isEmpty()) {
            return left.isPresent() ? left : right;
        }
        double l = left.getAsDouble();
        double r = right.getAsDouble();
        return OptionalDouble.of(direction == Direction.LOWER ? Math.min(l, r) : Math.max(l, r));
    }

    /**
     * Both sides, the painful one first; with both painful the one further the way that counts first, and the larger
     * where either way counts, so that left and right are only names.
     */
    Optional<SideDifference> difference(Side painful, Direction direction) {
        if (left.isEmpty() || right.isEmpty()) {
            return Optional.empty();
        }
        double l = left.getAsDouble();
        double r = right.getAsDouble();
        boolean fromLeft =
                switch (painful) {
                    case LEFT -> true;
                    case RIGHT -> false;
                    case BOTH -> direction == Direction.LOWER ? l <= r : l >= r;
                };
        return Optional.of(fromLeft ? new SideDifference(l, r) : new SideDifference(r, l));
    }

    /** The highest pain noted during the test, on either side. */
    double pain() {
        double pain = 0;
        for (Optional<Readings> readings : List.of(measured.left(), measured.right())) {
            pain = Math.max(
                    pain,
                    readings.map(Readings::pain).orElse(OptionalDouble.empty()).orElse(0));
        }
        return pain;
    }

    /** As recorded, such as {@code 110 N left, 150 N right}. */
    String text() {
        List<String> parts = new ArrayList<>();
        part(parts, left, measured.left(), "left");
        part(parts, right, measured.right(), "right");
        return String.join(", ", parts);
    }

    private void part(List<String> parts, OptionalDouble value, Optional<Readings> readings, String side) {
        if (value.isPresent()) {
            parts.add(Plain.brief(value.getAsDouble()) + " " + measure.unit() + " " + side);
        } else if (readings.isPresent() && !readings.get().word().isEmpty()) {
            parts.add(readings.get().word() + " " + side);
        }
    }

    Reason.Read read() {
        return new Reason.Read(measure.id(), text());
    }
}
