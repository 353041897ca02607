package org.gerdy.engine.casefile;

import java.util.Optional;

/** What stands in a file for one finding: one answer for the person, or one for each side that was looked at. */
public sealed interface Recorded {
    /** An answer about the person. */
    record Whole(Answer answer) implements Recorded {}

    /** Answers by side; a side not recorded is empty. */
    record Sides(Optional<Answer> left, Optional<Answer> right) implements Recorded {}

    /** The answer that holds for this side. */
    default Optional<Answer> on(Side side) {
        if (this instanceof Sides sides) {
            return side == Side.LEFT ? sides.left() : sides.right();
        }
        return this instanceof Whole whole ? Optional.of(whole.answer()) : Optional.empty();
    }
}
