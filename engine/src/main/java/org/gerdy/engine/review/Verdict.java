package org.gerdy.engine.review;

/** What a change in one score comes to. */
public enum Verdict {
    /** Better by more than measurement error, and by as much as matters where that is known. */
    BETTER_THAN_ERROR("better than error"),
    /** Not told apart from chance, or from no change that matters. */
    NO_SURE_CHANGE("no sure change"),
    /** Worse by more than measurement error. */
    WORSE("worse");

    private final String words;

    Verdict(String words) {
        this.words = words;
    }

    /** The words used on screen and in JSON. */
    public String words() {
        return words;
    }
}
