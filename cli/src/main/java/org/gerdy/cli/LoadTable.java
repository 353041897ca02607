package org.gerdy.cli;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.load.Quantity;
import org.gerdy.engine.load.Spike;
import org.gerdy.engine.measure.Plain;

/** A load report as plain text of 80 columns: a chart of weeks, runs longer than usual, quantities, what is missing. */
final class LoadTable {
    private static final int BAR = 24;
    private static final int LATEST = 10;
    private static final double METRES = 1000;
    /** Round numbers an axis may end on, times a power of ten; each halves into a round number. */
    private static final double[] ENDS = {1, 2, 4, 5, 6, 8, 10};

    private final int weeks;

    /**
     * A table.
     *
     * @param weeks how many of the last weeks to chart, at least 1
     */
    LoadTable(int weeks) {
        this.weeks = Math.max(1, weeks);
    }

    /** The text, lines ended by a line feed. */
    String text(LoadReport report) {
        Page page = new Page();
        page.hanging(
                "",
                "Training load, " + report.first() + " to " + report.last() + "; windows end on " + report.end()
                        + (report.firstPainful().isPresent() ? ", the day before the first painful session" : "")
                        + ".");
        chart(page, report);
        spikes(page, report.spikes());
        page.heading("Quantities up to " + report.end());
        report.quantities().values().forEach(quantity -> quantity(page, quantity));
        if (!report.notes().isEmpty()) {
            page.heading("Notes");
            report.notes().forEach(note -> page.hanging("- ", note));
        }
        page.blank().line("These numbers describe. None of them is a risk, an alarm or a cause.");
        return page.toString();
    }

    private void chart(Page page, LoadReport report) {
        List<LoadReport.Week> all = report.weeks();
        List<LoadReport.Week> shown = all.subList(Math.max(0, all.size() - weeks), all.size());
        if (shown.isEmpty()) {
            return;
        }
        double end =
                axisEnd(shown.stream().mapToLong(LoadReport.Week::metres).max().orElse(0) / METRES);
        page.heading("Kilometres a week");
        String middle = Plain.brief(end / 2);
        String last = Plain.brief(end);
        StringBuilder axis = new StringBuilder("0");
        pad(axis, BAR / 2 - middle.length() / 2).append(middle);
        pad(axis, BAR - last.length() + 1).append(last);
        page.line(row("week from", "km", "runs", "longest", axis.toString()));
        page.line(row("", "", "", "km", "|" + "-".repeat(BAR / 2 - 1) + "|" + "-".repeat(BAR / 2 - 1) + "|"));
        for (LoadReport.Week week : shown) {
            int bar = (int) Math.round(BAR * week.metres() / METRES / end);
            List<String> words = words(week, report.spikes());
            page.line(row(
                    week.from().toString(),
                    kilometres(week.metres()),
                    Integer.toString(week.runs()),
                    week.runs() == 0 ? "-" : kilometres(week.longest()),
                    "|" + "=".repeat(bar) + (words.isEmpty() ? "" : " " + words.get(0))));
            words.stream().skip(1).forEach(word -> page.line(row("", "", "", "", "| " + word)));
        }
        report.firstPainful().ifPresent(day -> after(page, day, report.spikes()));
    }

    /** The run in which it began lies after the windows, so it stands below the chart. */
    private static void after(Page page, LocalDate day, List<Spike> spikes) {
        List<Spike> runs =
                spikes.stream().filter(spike -> spike.day().equals(day)).toList();
        for (Spike run : runs) {
            page.hanging(
                    "then " + day + ": ",
                    2,
                    kilometres(run.metres()) + " km, the first painful session"
                            + (larger(run) ? ", " + spike(run) + " over the longest of the days before" : "") + ".");
        }
        if (runs.isEmpty()) {
            page.line("then " + day + ": the first painful session; no run with a distance is recorded.");
        }
    }

    private static List<String> words(LoadReport.Week week, List<Spike> spikes) {
        List<String> words = new ArrayList<>();
        spikes.stream()
                .filter(spike -> larger(spike)
                        && !spike.day().isBefore(week.from())
                        && spike.day().isBefore(week.from().plusDays(7)))
                .forEach(spike -> words.add(spike(spike)));
        if (week.unknownDays() > 0) {
            words.add(week.unknownDays() + (week.unknownDays() == 1 ? " day unknown" : " days unknown"));
        }
        return words;
    }

    private static boolean larger(Spike spike) {
        return spike.state().compareTo(Spike.State.REFERENCE) > 0;
    }

    private static String spike(Spike spike) {
        return spike.state().word() + " spike "
                + String.format(Locale.ROOT, "%+.0f %%", spike.percent().orElseThrow());
    }

    private static void spikes(Page page, List<Spike> all) {
        List<Spike> larger = all.stream().filter(LoadTable::larger).toList();
        if (larger.isEmpty()) {
            return;
        }
        page.heading("Runs longer than the longest of the days before, latest " + LATEST);
        for (Spike spike : larger.subList(Math.max(0, larger.size() - LATEST), larger.size())) {
            page.line(spike.day() + "  " + right(kilometres(spike.metres()), 6) + " km, longest before "
                    + kilometres(spike.reference().orElseThrow()) + " km, " + spike(spike));
        }
    }

    private static void quantity(Page page, Quantity quantity) {
        String value = quantity.value().isPresent()
                ? Plain.brief(quantity.value().getAsDouble()) + " " + quantity.unit()
                : "-";
        page.hanging("- ", quantity.label() + ": " + value.strip());
        if (!quantity.remark().isEmpty()) {
            page.hanging("    ", quantity.remark());
        }
    }

    /** The least round number that holds the longest bar. */
    private static double axisEnd(double most) {
        if (!(most > 0)) {
            return 1;
        }
        double power = Math.pow(10, Math.floor(Math.log10(most)));
        for (double end : ENDS) {
            if (most <= end * power) {
                return end * power;
            }
        }
        return 10 * power;
    }

    private static String kilometres(long metres) {
        return String.format(Locale.ROOT, "%.1f", metres / METRES);
    }

    private static String row(String from, String km, String runs, String longest, String rest) {
        return String.format("%-10s", from) + right(km, 7) + right(runs, 5) + right(longest, 8) + "  " + rest;
    }

    private static String right(String text, int width) {
        return " ".repeat(Math.max(0, width - text.length())) + text;
    }

    private static StringBuilder pad(StringBuilder text, int length) {
        return text.append(" ".repeat(Math.max(0, length - text.length())));
    }
}
