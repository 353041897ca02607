package org.gerdy.cli.bench;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A table of medians, and of the median ratio to each yardstick within a round; microseconds a case also as cases a second. */
final class Ratios {
    private Ratios() {}

    /** Prints the table as Markdown. Every list holds one time a round, in the order of the rounds. */
    static void print(String title, String unit, Map<String, List<Double>> times, List<String> yardsticks) {
        System.out.println();
        boolean perCase = unit.equals("us");
        System.out.println("| " + title + " | median, " + unit + (perCase ? " | cases a second and core" : "")
                + " | times " + String.join(" | times ", yardsticks) + " |");
        System.out.println("|---|---|" + (perCase ? "---|" : "") + "---|".repeat(yardsticks.size()));
        times.forEach((name, rounds) -> {
            double median = median(rounds);
            StringBuilder line = new StringBuilder("| " + name + " | " + shown(median) + " |");
            if (perCase) {
                line.append(" ").append(shown(1e6 / median)).append(" |");
            }
            for (String yardstick : yardsticks) {
                List<Double> other = times.get(yardstick);
                double[] ratios = new double[rounds.size()];
                Arrays.setAll(ratios, round -> rounds.get(round) / other.get(round));
                line.append(" ").append(shown(median(ratios))).append(" |");
            }
            System.out.println(line);
        });
    }

    /** The middle value, or the mean of the two in the middle. */
    static double median(List<Double> values) {
        return median(values.stream().mapToDouble(Double::doubleValue).toArray());
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int middle = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
    }

    private static String shown(double value) {
        return String.format(Locale.ROOT, value < 10 ? "%.2f" : "%.0f", value);
    }
}
