package org.gerdy.engine.fact;

/**
 * A finding as rules see it: one fact for each finding known at the visit, sides already merged, computed findings
 * included. A finding nobody settled has no fact.
 */
public record Finding(String id, boolean present, boolean absent, boolean unable, boolean ruledOut, String choice) {

    /** The catalogue id. */
    public String getId() {
        return id;
    }

    /** Present on at least one side, or a computed finding that holds. */
    public boolean isPresent() {
        return present;
    }

    /** Absent on every painful side; for a reversed finding, on at least one. */
    public boolean isAbsent() {
        return absent;
    }

    /** Tried and could not be done, and nothing else settles it. */
    public boolean isUnable() {
        return unable;
    }

    /** Known not to hold: absent, not applicable, or a computed finding that does not hold. */
    public boolean isRuledOut() {
        return ruledOut;
    }

    /** The choice made, or empty. */
    public String getChoice() {
        return choice;
    }
}
