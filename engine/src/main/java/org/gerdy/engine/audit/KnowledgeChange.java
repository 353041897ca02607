package org.gerdy.engine.audit;

import java.util.Map;

/**
 * One rule or table row that is not the same in two knowledge bases.
 *
 * @param place the file it stands in
 * @param id the rule's id or the row's key
 * @param kind changed, added or removed
 * @param cells what changed, each as before and after; for a rule its text
 */
public record KnowledgeChange(String place, String id, Kind kind, Map<String, Cell> cells) {
    /** What happened to it. */
    public enum Kind {
        CHANGED,
        ADDED,
        REMOVED;

        /** The word on screen. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** A cell before and after; empty where there was none. */
    public record Cell(String before, String after) {}

    /** Whether it is a rule rather than a table row. */
    public boolean isRule() {
        return place.endsWith(".drl");
    }

    /** The name it goes by in a report. */
    public String name() {
        return place.substring(place.lastIndexOf('/') + 1) + ": " + id;
    }
}
