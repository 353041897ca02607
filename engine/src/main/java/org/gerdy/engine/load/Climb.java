package org.gerdy.engine.load;

import java.util.Arrays;

/**
 * Climb and descent from noisy heights: a running median of five, then only turns larger than a step count. Holds five
 * heights however long the track.
 */
final class Climb {
    private static final int WIDTH = 5;

    private final double step;
    private final double[] window = new double[WIDTH];
    private int seen;
    private double level;
    private boolean started;
    private double up;
    private double down;

    Climb(double step) {
        this.step = step;
    }

    void add(double height) {
        window[seen % WIDTH] = height;
        seen++;
        if (seen < WIDTH) {
            return;
        }
        double[] sorted = window.clone();
        Arrays.sort(sorted);
        double median = sorted[WIDTH / 2];
        if (!started) {
            level = median;
            started = true;
        } else if (median - level >= step) {
            up += median - level;
            level = median;
        } else if (level - median >= step) {
            down += level - median;
            level = median;
        }
    }

    boolean known() {
        return started;
    }

    double up() {
        return up;
    }

    double down() {
        return down;
    }
}
