package org.gerdy.engine.logic;

/** What is known about one patient at one visit, as an expression asks for it. Nothing unknown is ever guessed. */
public interface Answers {
    /** Whether the finding holds the given state or choice ({@code present}, {@code absent}, or one of its choices). */
    Truth is(String finding, String stateOrChoice);

    /** Whether the finding's number stands in the relation to the cut-off. */
    Truth compare(String finding, Comparison comparison, double cutOff);

    /** Whether one finding's number stands in the relation to {@code factor} times another's, on the same side if by side. */
    Truth compareTo(String finding, Comparison comparison, double factor, String other);

    /** Whether the painful side minus the other side, unrounded, stands in the relation to the cut-off. */
    Truth compareSides(String finding, Comparison comparison, double cutOff);
}
