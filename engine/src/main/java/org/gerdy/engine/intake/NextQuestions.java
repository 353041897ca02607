package org.gerdy.engine.intake;

import java.util.List;
import java.util.Optional;

/**
 * What to ask next at one moment of an intake.
 *
 * @param ranked questions in asking order, the best first
 * @param together the best question and those that stand on one screen with it, in asking order; empty when none is left
 * @param heldBack provocative tests kept for later, each with the flags that hold it
 * @param screeningComplete whether no flag is open
 */
public record NextQuestions(
        List<Suggestion> ranked, List<String> together, List<HeldBack> heldBack, boolean screeningComplete) {
    /** A provocative test and the raised or open flags it waits for. */
    public record HeldBack(String finding, List<String> flags) {}

    /** The best question; empty when nothing is left that is worth asking. */
    public Optional<Suggestion> best() {
        return ranked.stream().findFirst();
    }
}
