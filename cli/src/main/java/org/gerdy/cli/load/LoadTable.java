package org.gerdy.cli.load;

import java.util.List;
import java.util.Locale;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.load.Quantity;
import org.gerdy.engine.load.Spike;

/** A load report as plain text: quantities, weeks with a bar each, runs longer than usual, and what is missing. */
public final class LoadTable {
    private static final int BAR = 30;
    private static final double METRES = 1000;
    private static final String LINE = "%n";

    private final int weeks;

    /**
     * A table.
     *
     * @param weeks how many of the last weeks to list, at least 1
     */
    public LoadTable(int weeks) {
        this.weeks = Math.max(1, weeks);
    }

    /** The text, lines ended by a line feed. */
    public String text(LoadReport report) {
        StringBuilder out = new StringBuilder();
        line(
                out,
                "Training load, %s to %s; windows end on %s%s.",
                report.first(),
                report.last(),
                report.end(),
                report.firstPainful().isPresent() ? ", the day before the first painful session" : "");
        out.append('\n');
        for (Quantity quantity : report.quantities().values()) {
            quantity(out, quantity);
        }
        out.append('\n');
        weeks(out, report.weeks());
        spikes(out, report.spikes());
        if (!report.notes().isEmpty()) {
            out.append("\nNotes\n");
            report.notes().forEach(note -> out.append("  ").append(note).append('\n'));
        }
        out.append("\nThese numbers describe. None of them is a risk, an alarm or a cause.\n");
        return out.toString();
    }

    private static void quantity(StringBuilder out, Quantity quantity) {
        String value = quantity.value().isPresent()
                ? String.format(Locale.ROOT, "%10.2f %s", quantity.value().getAsDouble(), quantity.unit())
                : String.format("%10s", "-");
        out.append(String.format(Locale.ROOT, "  %-62s %-18s", quantity.label(), value)
                .stripTrailing());
        out.append('\n');
        if (!quantity.remark().isEmpty()) {
            out.append("      ").append(quantity.remark()).append('\n');
        }
    }

    private void weeks(StringBuilder out, List<LoadReport.Week> all) {
        List<LoadReport.Week> shown = all.subList(Math.max(0, all.size() - weeks), all.size());
        long most = shown.stream().mapToLong(LoadReport.Week::metres).max().orElse(0);
        line(out, "  %-12s %8s %5s %8s  %s", "week from", "km", "runs", "longest", "");
        for (LoadReport.Week week : shown) {
            int bar = most == 0 ? 0 : (int) Math.round(BAR * (double) week.metres() / most);
            String unknown = week.unknownDays() == 0
                    ? ""
                    : " " + week.unknownDays() + (week.unknownDays() == 1 ? " day unknown" : " days unknown");
            line(
                    out,
                    "  %-12s %8.1f %5d %8.1f  %s%s",
                    week.from(),
                    week.metres() / METRES,
                    week.runs(),
                    week.longest() / METRES,
                    "=".repeat(bar),
                    unknown);
        }
    }

    private static void spikes(StringBuilder out, List<Spike> all) {
        List<Spike> larger = all.stream()
                .filter(spike -> spike.state().compareTo(Spike.State.REFERENCE) > 0)
                .toList();
        if (larger.isEmpty()) {
            return;
        }
        out.append("\nRuns longer than the longest of the days before, latest ten\n");
        for (Spike spike : larger.subList(Math.max(0, larger.size() - 10), larger.size())) {
            line(
                    out,
                    "  %-12s %8.1f km, longest before %.1f km, %+.0f %%, %s",
                    spike.day(),
                    spike.metres() / METRES,
                    spike.reference().orElseThrow() / METRES,
                    spike.percent().orElseThrow(),
                    spike.state().word());
        }
    }

    private static void line(StringBuilder out, String format, Object... parts) {
        out.append(String.format(Locale.ROOT, format + LINE, parts)
                .replace("\r", "")
                .stripTrailing());
        out.append('\n');
    }
}
