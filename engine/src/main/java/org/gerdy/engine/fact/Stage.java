package org.gerdy.engine.fact;

/**
 * How far along the patient is, once settled; plan rules read it.
 *
 * @param name a stage of the stages table
 */
public record Stage(String name) {
    /** A stage of the stages table. */
    public String getName() {
        return name;
    }
}
