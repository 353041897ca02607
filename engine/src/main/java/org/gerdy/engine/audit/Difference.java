package org.gerdy.engine.audit;

/**
 * One thing a case expects and does not get.
 *
 * @param what the field of {@code expect}
 * @param expected what it says
 * @param found what came out
 */
public record Difference(String what, String expected, String found) {
    @Override
    public String toString() {
        return what + ": expected " + expected + ", found " + found;
    }
}
