package org.gerdy.engine.drill;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The quadratic score of stated confidences over several classes (Brier 1950, recalled). Against a distribution instead of
 * one outcome it is the squared distance, the expected score less its best value; least at the distribution itself, so
 * that nobody gains by stating anything but what they think (Gneiting and Raftery 2007, recalled).
 */
public final class QuadraticScore {
    private QuadraticScore() {}

    /** Squared distance of two distributions over the same classes, 0 to 2. A class missing from one counts as 0 there. */
    public static double distance(Map<String, Double> stated, Map<String, Double> reference) {
        double sum = 0;
        for (Map.Entry<String, Double> one : reference.entrySet()) {
            double difference = one.getValue() - stated.getOrDefault(one.getKey(), 0.0);
            sum += difference * difference;
        }
        for (Map.Entry<String, Double> one : stated.entrySet()) {
            sum += reference.containsKey(one.getKey()) ? 0 : one.getValue() * one.getValue();
        }
        return sum;
    }

    /** Confidences over all classes: what is left of 1 is spread evenly over the classes not named. */
    public static Map<String, Double> whole(Map<String, Double> named, Iterable<String> classes) {
        Map<String, Double> whole = new LinkedHashMap<>();
        double left = 1;
        int unnamed = 0;
        for (double one : named.values()) {
            left -= one;
        }
        for (String id : classes) {
            unnamed += named.containsKey(id) ? 0 : 1;
        }
        for (String id : classes) {
            whole.put(id, named.getOrDefault(id, unnamed == 0 ? 0 : Math.max(0, left) / unnamed));
        }
        named.forEach(whole::putIfAbsent);
        return whole;
    }
}
