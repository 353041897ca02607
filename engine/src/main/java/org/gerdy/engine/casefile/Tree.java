package org.gerdy.engine.casefile;

import java.util.List;
import java.util.Map;

/** A parsed YAML or JSON document that still knows where each part stood. */
sealed interface Tree {
    /** A place in the file, both counted from 1. */
    record Place(int line, int column) {}

    Place place();

    /** Keys and values in file order. */
    record Mapping(Place place, Map<String, Member> members) implements Tree {}

    /** One key with its value. */
    record Member(Place key, Tree value) {}

    /** Items in file order. */
    record Sequence(Place place, List<Tree> items) implements Tree {}

    /** A leaf. */
    record Scalar(Place place, Type type, String text) implements Tree {}

    /** What a leaf was written as. */
    enum Type {
        TEXT,
        NUMBER,
        BOOLEAN,
        NULL
    }
}
