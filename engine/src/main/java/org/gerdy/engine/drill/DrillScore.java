package org.gerdy.engine.drill;

import java.util.List;
import java.util.Optional;

/**
 * Work marked, with its reasons.
 *
 * @param parts each part that could be marked in this case, in a fixed order
 * @param dangerous whether the case is one that must not wait
 * @param underTriaged whether the stated urgency is below the needed one
 * @param changing what should have changed the mind, if something should
 */
public record DrillScore(List<Part> parts, boolean dangerous, boolean underTriaged, Optional<Line> changing) {

    /** What is marked. */
    public enum Kind {
        SAFETY,
        DIFFERENTIAL,
        RANK,
        EFFICIENCY,
        FACTORS,
        PLAN,
        SETTLE;

        /** The word shown. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * One part.
     *
     * @param points reached; the differential can cost points
     * @param most what it is worth
     */
    public record Part(Kind kind, double points, double most, List<Line> lines) {}

    /**
     * One reason.
     *
     * @param rule the rule, flag row or table row behind it; empty when it is plain counting
     * @param sources bibliography keys
     */
    public record Line(String text, String rule, List<String> sources) {
        static Line of(String text) {
            return new Line(text, "", List.of());
        }
    }

    /** Points of 100, the parts that could not be marked left out of both; never below 0. */
    public double total() {
        double points = parts.stream().mapToDouble(Part::points).sum();
        double most = parts.stream().mapToDouble(Part::most).sum();
        return Math.max(0, 100 * points / most);
    }

    /** The part of this kind, if it could be marked. */
    public Optional<Part> part(Kind kind) {
        return parts.stream().filter(part -> part.kind() == kind).findFirst();
    }
}
