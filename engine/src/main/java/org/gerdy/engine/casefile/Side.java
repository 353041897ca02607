package org.gerdy.engine.casefile;

import java.util.List;
import java.util.Locale;

/** Which side hurts at a visit. */
public enum Side {
    LEFT,
    RIGHT,
    BOTH;

    /** The word used in files. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The sides meant: one, or for both sides two. */
    public List<Side> each() {
        return this == BOTH ? List.of(LEFT, RIGHT) : List.of(this);
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
