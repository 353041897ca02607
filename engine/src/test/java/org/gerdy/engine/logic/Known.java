package org.gerdy.engine.logic;

import java.util.HashMap;
import java.util.Map;

/** Answers from two plain maps: states and numbers. What is in neither is unknown. */
final class Known implements Answers {
    private final Map<String, String> states = new HashMap<>();
    private final Map<String, Double> numbers = new HashMap<>();
    private final Map<String, Double> differences = new HashMap<>();

    Known state(String finding, String state) {
        states.put(finding, state);
        return this;
    }

    Known number(String finding, double value) {
        numbers.put(finding, value);
        return this;
    }

    Known difference(String finding, double value) {
        differences.put(finding, value);
        return this;
    }

    @Override
    public Truth is(String finding, String stateOrChoice) {
        return states.containsKey(finding) ? Truth.of(states.get(finding).equals(stateOrChoice)) : Truth.UNKNOWN;
    }

    @Override
    public Truth compare(String finding, Comparison comparison, double cutOff) {
        return numbers.containsKey(finding) ? Truth.of(comparison.holds(numbers.get(finding), cutOff)) : Truth.UNKNOWN;
    }

    @Override
    public Truth compareTo(String finding, Comparison comparison, double factor, String other) {
        return numbers.containsKey(finding) && numbers.containsKey(other)
                ? Truth.of(comparison.holds(numbers.get(finding), factor * numbers.get(other)))
                : Truth.UNKNOWN;
    }

    @Override
    public Truth compareSides(String finding, Comparison comparison, double cutOff) {
        return differences.containsKey(finding)
                ? Truth.of(comparison.holds(differences.get(finding), cutOff))
                : Truth.UNKNOWN;
    }
}
