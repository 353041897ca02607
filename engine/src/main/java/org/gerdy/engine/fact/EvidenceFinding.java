package org.gerdy.engine.fact;

/**
 * A settled finding that is evidence about the painful side, as the rule that reads the evidence table sees it.
 *
 * @param id the catalogue id
 * @param present whether it is present; otherwise it is absent
 */
public record EvidenceFinding(String id, boolean present) {
    /** The catalogue id. */
    public String getId() {
        return id;
    }

    /** Whether it is present; otherwise it is absent. */
    public boolean isPresent() {
        return present;
    }
}
