package org.gerdy.cli.drill;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.gerdy.cli.KnowledgeCommand;
import org.gerdy.cli.Page;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.drill.Calibration;
import org.gerdy.engine.drill.DrillTables;
import org.gerdy.engine.drill.Progress;
import org.gerdy.engine.drill.Repetition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** How a learner is getting on. */
@Command(
        name = "report",
        mixinStandardHelpOptions = true,
        description = "Scores over time, misses by condition, what comes back when, and how confidence meets outcome.",
        footer = {"", "Example:", "  gerdy drill report heron"})
final class ReportCommand extends KnowledgeCommand {
    private static final int BAR = 40;

    @Parameters(paramLabel = "PSEUDONYM", description = "Whose progress.")
    private String learner = "";

    @Option(names = "--progress", paramLabel = "DIR", description = "Where progress is kept.")
    private @Nullable Path progress;

    @Option(names = "--on", paramLabel = "DATE", description = "The day of the report; today by default.")
    private @Nullable LocalDate day;

    @Override
    public Integer call() throws MendableException {
        Progress found = Progress.read(progress == null ? School.home() : progress, learner);
        if (found.played().isEmpty()) {
            throw new MendableException(learner, "Nothing is kept under this pseudonym yet.");
        }
        KnowledgeBase base = gerdy().knowledge();
        DrillTables tables = DrillTables.load(knowledge().files(), base);
        LocalDate today = day == null ? LocalDate.now(ZoneId.systemDefault()) : day;
        out().print(text(found, base, tables, today));
        return 0;
    }

    static String text(Progress found, KnowledgeBase base, DrillTables tables, LocalDate today) {
        Page page = new Page();
        page.heading("Cases of " + found.learner());
        for (Progress.Played one : found.played()) {
            page.line(String.format(
                    Locale.ROOT,
                    "%s %-15s %3.0f %s%s",
                    one.date(),
                    one.difficulty(),
                    one.total(),
                    bar(one.total() / 100),
                    one.underTriaged() && one.dangerous() ? " under-triaged" : ""));
        }
        parts(page, found);
        conditions(page, found, base, tables, today);
        calibration(page, found.forecasts());
        return page.toString();
    }

    private static String bar(double share) {
        int filled = (int) Math.round(Math.max(0, Math.min(1, share)) * BAR);
        return "=".repeat(filled) + ".".repeat(BAR - filled);
    }

    private static void parts(Page page, Progress found) {
        page.heading("Parts, all cases together");
        Map<String, double[]> sums = new LinkedHashMap<>();
        for (Progress.Played one : found.played()) {
            one.parts().forEach((part, points) -> {
                double[] sum = sums.computeIfAbsent(part, ignored -> new double[2]);
                sum[0] += points[0];
                sum[1] += points[1];
            });
        }
        sums.forEach((part, sum) -> page.line(
                String.format(Locale.ROOT, "%-14s %4.0f %% %s", part, 100 * sum[0] / sum[1], bar(sum[0] / sum[1]))));
    }

    private static void conditions(Page page, Progress found, KnowledgeBase base, DrillTables tables, LocalDate today) {
        page.heading("By condition: cases, not named, mean score, when it comes back");
        Map<String, Repetition> schedule = found.schedule(tables.settings());
        Map<String, List<Progress.Played>> byCondition = new TreeMap<>();
        for (Progress.Played one : found.played()) {
            if (!one.causes().isEmpty()) {
                byCondition
                        .computeIfAbsent(one.causes().get(0), ignored -> new ArrayList<>())
                        .add(one);
            }
        }
        byCondition.forEach((condition, played) -> {
            long missed = played.stream()
                    .filter(one -> !one.confidences().containsKey(condition))
                    .count();
            double mean = played.stream()
                    .mapToDouble(Progress.Played::total)
                    .average()
                    .orElse(0);
            LocalDate due =
                    java.util.Objects.requireNonNull(schedule.get(condition)).due();
            String name = base.conditions().containsKey(condition)
                    ? base.condition(condition).name()
                    : condition;
            page.hanging(
                    "  ",
                    4,
                    name + ": " + played.size() + ", " + missed + ", "
                            + String.format(Locale.ROOT, "%.0f", mean) + ", "
                            + (due.isAfter(today) ? due.toString() : "due now"));
        });
        page.hanging("", "Intervals follow algorithm SM-2 (wozniak1990).");
    }

    private static void calibration(Page page, List<Calibration.Forecast> forecasts) {
        page.heading("Calibration: what you said, how often it was so");
        if (forecasts.isEmpty()) {
            page.line("No confidence was stated yet.");
            return;
        }
        Calibration calibration = Calibration.of(forecasts);
        page.line("    stated     n   mean   seen  0 %                                    100 %");
        for (Calibration.Group group : calibration.groups()) {
            char[] line = ".".repeat(BAR + 1).toCharArray();
            line[(int) Math.round(group.stated() * BAR)] = '|';
            line[(int) Math.round(group.seen() * BAR)] = '*';
            page.line(String.format(
                    Locale.ROOT,
                    "%3.0f to %3.0f %% %3d  %3.0f %%  %3.0f %%  %s",
                    group.low() * 100,
                    group.high() * 100,
                    group.count(),
                    group.stated() * 100,
                    group.seen() * 100,
                    new String(line)));
        }
        page.hanging("", "Bar: what you said. Star: how often it was so. On one another they show as a star.");
        page.hanging(
                "",
                String.format(
                        Locale.ROOT,
                        "Mean squared difference %.3f over %d confidences; reliability %.3f, resolution %.3f,"
                                + " uncertainty %.3f (brier1950, murphy1973).",
                        calibration.score(),
                        forecasts.size(),
                        calibration.reliability(),
                        calibration.resolution(),
                        calibration.uncertainty()));
    }
}
