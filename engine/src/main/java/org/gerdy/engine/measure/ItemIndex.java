package org.gerdy.engine.measure;

import java.util.List;
import java.util.OptionalInt;

/**
 * A sum of whole-number items, each inside the same bounds. With an item missing there is no total.
 *
 * @param items in the order of the instrument; empty where not scored
 * @param lowest smallest score of an item
 * @param highest largest score of an item
 */
public record ItemIndex(List<OptionalInt> items, int lowest, int highest) {
    /** Throws {@link IllegalArgumentException} when an item is out of bounds. */
    public ItemIndex {
        items = List.copyOf(items);
        for (int i = 0; i < items.size(); i++) {
            if (items.get(i).isPresent()
                    && (items.get(i).getAsInt() < lowest || items.get(i).getAsInt() > highest)) {
                throw new IllegalArgumentException("Item " + (i + 1) + " is "
                        + items.get(i).getAsInt() + "; it takes a whole number from " + lowest + " to " + highest
                        + ".");
            }
        }
    }

    /** The sum; empty when any item is missing. */
    public OptionalInt total() {
        int sum = 0;
        for (OptionalInt item : items) {
            if (item.isEmpty()) {
                return OptionalInt.empty();
            }
            sum += item.getAsInt();
        }
        return OptionalInt.of(sum);
    }

    /** Numbers of the missing items, counted from 1. */
    public List<Integer> missing() {
        return java.util.stream.IntStream.range(0, items.size())
                .filter(i -> items.get(i).isEmpty())
                .mapToObj(i -> i + 1)
                .toList();
    }
}
