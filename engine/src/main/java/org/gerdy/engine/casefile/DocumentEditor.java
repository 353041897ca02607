package org.gerdy.engine.casefile;

import java.util.List;

/** Changes single places of a document and leaves every other byte's meaning, comments included, as it stands. */
interface DocumentEditor {
    /** Text that stays text, though it may look like a number, a day or a switch. */
    record Prose(String text) {}

    /**
     * Puts a value at a place, made if it is not there.
     *
     * @param path keys and list indices from the root
     * @param value prose, text that is written as a number where it is one, whole number, map by key, or list of these
     */
    void put(List<Object> path, Object value);

    /** Takes away what stands at a place, if anything does. */
    void remove(List<Object> path);

    /** The document as UTF-8. */
    byte[] bytes();
}
