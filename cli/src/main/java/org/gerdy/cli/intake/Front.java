package org.gerdy.cli.intake;

import java.util.Optional;

/** Where screens are shown and keys come from. */
public interface Front extends AutoCloseable {
    /** Shows a screen and waits for what is typed; empty when nothing more will come. */
    Optional<String> ask(Screen screen);

    /** Says how the last thing typed went, where the next screen does not. */
    void tell(String message, boolean understood);

    /** Gives the terminal back as it was. Can be called more than once, from any thread. */
    @Override
    void close();
}
