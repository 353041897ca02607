package org.gerdy.engine.fact;

/**
 * How one red flag stands at the visit, as plan rules see it.
 *
 * @param flag the flag's id
 * @param state {@code raised}, {@code open} or {@code cleared}
 */
public record FlagStanding(String flag, String state) {
    /** The flag's id. */
    public String getFlag() {
        return flag;
    }

    /** {@code raised}, {@code open} or {@code cleared}. */
    public String getState() {
        return state;
    }
}
