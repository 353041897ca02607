package org.gerdy.engine.audit;

/** Is told how far long work has come. */
@FunctionalInterface
public interface Watcher {
    /** For work that nobody watches. */
    Watcher NOBODY = (what, steps) -> more -> {};

    /**
     * Work begins.
     *
     * @param what its steps, in the plural
     * @param steps how many there will be; -1 when nobody can say
     */
    Steps begin(String what, long steps);

    /** The steps of one piece of work; closed at its end. */
    @FunctionalInterface
    interface Steps extends AutoCloseable {
        /** So many more are done. Called from any thread. */
        void done(long more);

        @Override
        default void close() {}
    }
}
