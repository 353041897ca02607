package org.gerdy.engine.load;

import java.util.Locale;

/** Which words of a file say that a session was a run. A file that says nothing holds runs. */
final class Sports {
    private Sports() {}

    static boolean isRunning(String word) {
        String lower = word.toLowerCase(Locale.ROOT);
        return lower.isBlank() || lower.contains("run") || lower.contains("jog") || lower.matches("[0-9]+");
    }
}
