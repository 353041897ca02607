package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.List;

/**
 * How stated confidences and outcomes go together: the mean square of the difference and its split into reliability,
 * resolution and uncertainty (Murphy 1973, recalled). Exact when every confidence of a group is the same; otherwise the
 * group's mean stands for it and the three add up only nearly.
 *
 * @param groups tenths of confidence that hold anything
 * @param score mean squared difference, 0 best
 * @param reliability how far confidence and frequency part, 0 best
 * @param resolution how far the groups part from the overall frequency, more is better
 * @param uncertainty what the outcomes alone make of it
 */
public record Calibration(List<Group> groups, double score, double reliability, double resolution, double uncertainty) {
    private static final int GROUPS = 10;

    /** One confidence and whether it came true. */
    public record Forecast(double confidence, boolean came) {}

    /**
     * One tenth.
     *
     * @param low from this confidence
     * @param high below this confidence
     * @param count forecasts in it
     * @param stated their mean confidence
     * @param seen how often they came true
     */
    public record Group(double low, double high, int count, double stated, double seen) {}

    /** The calibration of these forecasts. Throws {@link IllegalArgumentException} without any. */
    public static Calibration of(List<Forecast> forecasts) {
        if (forecasts.isEmpty()) {
            throw new IllegalArgumentException("There is nothing to compare yet.");
        }
        int[] count = new int[GROUPS];
        double[] stated = new double[GROUPS];
        double[] came = new double[GROUPS];
        double square = 0;
        double all = 0;
        for (Forecast one : forecasts) {
            int group = Math.min(GROUPS - 1, (int) (one.confidence() * GROUPS));
            double outcome = one.came() ? 1 : 0;
            count[group]++;
            stated[group] += one.confidence();
            came[group] += outcome;
            square += (one.confidence() - outcome) * (one.confidence() - outcome);
            all += outcome;
        }
        double n = forecasts.size();
        double base = all / n;
        double reliability = 0;
        double resolution = 0;
        List<Group> groups = new ArrayList<>();
        for (int i = 0; i < GROUPS; i++) {
            if (count[i] > 0) {
                double mean = stated[i] / count[i];
                double seen = came[i] / count[i];
                reliability += count[i] * (mean - seen) * (mean - seen) / n;
                resolution += count[i] * (seen - base) * (seen - base) / n;
                groups.add(new Group(i / (double) GROUPS, (i + 1) / (double) GROUPS, count[i], mean, seen));
            }
        }
        return new Calibration(List.copyOf(groups), square / n, reliability, resolution, base * (1 - base));
    }
}
