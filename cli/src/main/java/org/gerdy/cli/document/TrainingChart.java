package org.gerdy.cli.document;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.load.Spike;

/** The runs of a training record day by day, with the weeks below; a run far longer than those before is black. */
final class TrainingChart {
    private static final int LEFT = 40;
    private static final int RIGHT = 670;
    private static final int WIDTH = 690;
    private static final int TOP = 30;
    private static final int BOTTOM = 150;
    private static final int WEEKS = 10;
    private static final int DAYS_A_WEEK = 7;
    private static final double METRES_A_KILOMETRE = 1000;

    private TrainingChart() {}

    /**
     * The chart of the last weeks up to the day the pain began, or up to the end of the windows.
     *
     * @param referenceDays how many days before a run the longest is looked for
     */
    static Document.Picture of(LoadReport report, int referenceDays) {
        LocalDate last = report.firstPainful().orElse(report.end());
        List<LoadReport.Week> weeks = report.weeks();
        List<LoadReport.Week> shown = weeks.subList(Math.max(0, weeks.size() - WEEKS), weeks.size());
        LocalDate first =
                shown.isEmpty() ? last.minusDays(DAYS_A_WEEK) : shown.get(0).from();
        List<Spike> runs = report.spikes().stream()
                .filter(run -> !run.day().isBefore(first) && !run.day().isAfter(last))
                .toList();
        List<String> words = words(report, shown, runs, referenceDays);
        long most = Math.max(1, runs.stream().mapToLong(Spike::metres).max().orElse(1));
        double days = ChronoUnit.DAYS.between(first, last) + 1.0;
        double wide = (RIGHT - LEFT) / days;
        Svg svg = new Svg(
                "training-picture",
                WIDTH,
                BOTTOM + 46,
                "Distance of each run in the record",
                String.join("; ", words) + ".");
        axis(svg, most);
        for (LoadReport.Week week : shown) {
            double x = x(first, week.from(), wide);
            svg.line(x, BOTTOM, x, BOTTOM + 5, "stroke-width=\"1\"");
            svg.text(x + 2, BOTTOM + 14, "start", "font-size=\"9\"", day(week.from()));
            svg.text(
                    x + 2,
                    BOTTOM + 26,
                    "start",
                    "font-size=\"9\"",
                    km(week.metres()) + (week.unknownDays() > 0 ? " *" : ""));
        }
        svg.text(LEFT - 4, BOTTOM + 14, "end", "font-size=\"9\"", "from");
        svg.text(LEFT - 4, BOTTOM + 26, "end", "font-size=\"9\"", "km");
        report.onset().flatMap(TrainingChart::reference).ifPresent(before -> {
            double y = y(before, most);
            double to = x(first, report.onset().orElseThrow().day(), wide);
            svg.line(
                    Math.max(LEFT, to - referenceDays * wide), y, to, y, "stroke-width=\"1\" stroke-dasharray=\"5 3\"");
        });
        for (Spike run : runs) {
            double x = x(first, run.day(), wide);
            double y = y(run.metres(), most);
            svg.rect(
                    x + wide * 0.1,
                    y,
                    wide * 0.8,
                    BOTTOM - y,
                    "stroke-width=\"0.75\" fill=\"" + (longer(run) ? "#000" : "#ddd") + "\"");
            if (longer(run)) {
                boolean atEdge = x > RIGHT - 40;
                svg.text(
                        atEdge ? x + wide : x + wide / 2,
                        y - 4,
                        atEdge ? "end" : "middle",
                        "font-size=\"9\" font-weight=\"bold\"",
                        percent(run));
            }
        }
        report.firstPainful().ifPresent(day -> {
            double x = x(first, day, wide) + wide / 2;
            svg.text(
                    Math.min(x, RIGHT),
                    BOTTOM + 40,
                    "end",
                    "font-size=\"10\" font-weight=\"bold\"",
                    "pain began " + day(day));
        });
        return new Document.Picture(
                svg.toString(),
                "Each bar is a run. A black bar is longer than the longest of the " + referenceDays
                        + " days before it by the percentage above it; the dashed line is that longest run for the one the question is about. Below: kilometres of"
                        + " the seven days from that date"
                        + (shown.stream().anyMatch(week -> week.unknownDays() > 0)
                                ? "; * where days of the week are unknown"
                                : "")
                        + ". The numbers describe; none is a risk or a cause.",
                words);
    }

    private static List<String> words(
            LoadReport report, List<LoadReport.Week> weeks, List<Spike> runs, int referenceDays) {
        List<String> words = new ArrayList<>();
        List<String> totals = new ArrayList<>();
        weeks.forEach(week -> totals.add(day(week.from()) + " " + km(week.metres()) + " km"
                + (week.unknownDays() > 0 ? " (" + week.unknownDays() + " days unknown)" : "")));
        words.add("Seven days from " + String.join(", ", totals));
        List<String> spikes = runs.stream()
                .filter(TrainingChart::longer)
                .map(run -> km(run.metres()) + " km on " + day(run.day()) + ", " + percent(run) + " over "
                        + km(run.reference().orElseThrow()) + " km")
                .toList();
        words.add(
                spikes.isEmpty()
                        ? "No run was much longer than the longest of the " + referenceDays + " days before it"
                        : "Longer than the longest of the " + referenceDays + " days before: "
                                + String.join("; ", spikes));
        report.firstPainful()
                .ifPresent(day -> words.add("Pain began on " + Naming.shortDay(day) + "; nothing after it is counted"));
        return words;
    }

    private static Optional<Long> reference(Spike onset) {
        return longer(onset) && onset.reference().isPresent()
                ? Optional.of(onset.reference().getAsLong())
                : Optional.empty();
    }

    private static void axis(Svg svg, long most) {
        svg.line(LEFT, TOP - 6, LEFT, BOTTOM, "stroke-width=\"1\"");
        svg.line(LEFT, BOTTOM, RIGHT, BOTTOM, "stroke-width=\"1\"");
        int step = most > 40_000 ? 20_000 : most > 16_000 ? 10_000 : most > 8_000 ? 5_000 : 2_000;
        for (long tick = 0; tick <= most; tick += step) {
            double y = y(tick, most);
            svg.line(LEFT - 3, y, LEFT, y, "stroke-width=\"1\"");
            svg.text(LEFT - 5, y + 3, "end", "font-size=\"9\"", tick / 1000 + (tick + step > most ? " km" : ""));
        }
    }

    private static boolean longer(Spike run) {
        return run.state().compareTo(Spike.State.REFERENCE) > 0;
    }

    private static String percent(Spike run) {
        return String.format(Locale.ROOT, "%+.0f %%", run.percent().orElseThrow());
    }

    private static String km(long metres) {
        return String.format(Locale.ROOT, "%.1f", metres / METRES_A_KILOMETRE);
    }

    private static String day(LocalDate date) {
        return Naming.dayOfMonth(date);
    }

    private static double x(LocalDate first, LocalDate day, double wide) {
        return LEFT + ChronoUnit.DAYS.between(first, day) * wide;
    }

    private static double y(long metres, long most) {
        return BOTTOM - (double) metres / most * (BOTTOM - TOP);
    }
}
