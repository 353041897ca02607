package org.gerdy.engine.casefile;

import java.util.List;
import java.util.Locale;

/** Which side hurts at a visit. */
public enum Side {
    LEFT,
    RIGHT,
    BOTH;

    private static final List<Side> LEFT_ALONE = List.of(LEFT);
    private static final List<Side> RIGHT_ALONE = List.of(RIGHT);
    private static final List<Side> LEFT_AND_RIGHT = List.of(LEFT, RIGHT);

    /** The word used in files. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The sides meant: one, or for both sides two. */
    public List<Side> each() {
        return switch (this) {
            case LEFT -> LEFT_ALONE;
            case RIGHT -> RIGHT_ALONE;
            case BOTH -> LEFT_AND_RIGHT;
        };
    }

    /** The side across; both stays both. */
    public Side other() {
        return switch (this) {
            case LEFT -> RIGHT;
            case RIGHT -> LEFT;
            case BOTH -> BOTH;
        };
    }
}
