package org.gerdy.engine.logic;

import java.util.List;
import java.util.stream.Collectors;

/** A weighted sum of conditions, with the smallest and largest total it can still reach. */
public record Points(List<Item> items) {
    /** One item: so many points when the condition holds. */
    public record Item(double points, Expression condition) {}

    /** The smallest and largest total over everything unanswered; equal when all is known. */
    public record Total(double low, double high) {}

    /** The range the total can still take. */
    public Total total(Answers answers) {
        double low = 0;
        double high = 0;
        for (Item item : items) {
            switch (item.condition().in(answers)) {
                case TRUE -> {
                    low += item.points();
                    high += item.points();
                }
                case UNKNOWN -> {
                    low += Math.min(0, item.points());
                    high += Math.max(0, item.points());
                }
                case FALSE -> {}
            }
        }
        return new Total(low, high);
    }

    @Override
    public String toString() {
        return items.stream()
                .map(item -> item.points() + ":" + item.condition())
                .collect(Collectors.joining(", ", "points(", ")"));
    }
}
