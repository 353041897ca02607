package org.gerdy.engine.plan;

/** What the answers to a session say about the next one. */
public enum Loading {
    /** It counts; the next step may come. */
    PROGRESS,
    /** The same again. */
    HOLD,
    /** One step back. */
    BACK;

    /** The more careful of the two. */
    public Loading orMoreCareful(Loading other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
