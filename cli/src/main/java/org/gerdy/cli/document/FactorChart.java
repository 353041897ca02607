package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Gauge;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.Plain;

/** Measured factors as dots with their error bars, each on an axis of its own unit beside norm and cut-offs. */
final class FactorChart {
    private static final int WIDTH = 690;
    private static final int LEFT = 300;
    private static final int RIGHT = 660;
    private static final int ROW = 52;
    private static final int TOP = 8;
    /** Heights below the top of a row. */
    private static final int UPPER = 8;

    private static final int LOWER = 20;
    private static final int MIDDLE = 14;
    private static final int AXIS = 28;
    private static final int LINE = 13;
    /** Letters that fit left of the axis. */
    private static final int LABEL = 48;

    private static final int GROUP = 58;
    /** Rows that fit on a sheet beside their heading. */
    private static final int ROWS = 12;
    /** Ticks at most on an axis. */
    private static final int TICKS = 6;
    /** Share of the axis left free at each end. */
    private static final double MARGIN = 0.06;

    private FactorChart() {}

    private record Row(FactorResult factor, Gauge gauge, boolean first, Side painful) {
        /** Whether the verdict rests on this mark: a painful side, or a value of no side. */
        boolean rests(Gauge.Mark mark) {
            return mark.side().isEmpty()
                    || painful.each().stream().anyMatch(side -> side.word().equals(mark.side()));
        }
    }

    /** The charts of these factors, no taller than a sheet; empty when none was measured as a number. */
    static List<Document.Block> of(List<FactorResult> factors, Side painful) {
        List<Row> rows = new ArrayList<>();
        for (FactorResult factor : factors) {
            boolean first = true;
            for (Gauge gauge : factor.gauges()) {
                if (gauge.compares()) {
                    rows.add(new Row(factor, gauge, first, painful));
                    first = false;
                }
            }
        }
        List<Document.Block> pictures = new ArrayList<>();
        for (int from = 0; from < rows.size(); from += ROWS) {
            pictures.add(picture(
                    rows.subList(from, Math.min(rows.size(), from + ROWS)),
                    "factors-picture" + (from == 0 ? "" : "-" + from),
                    from == 0));
        }
        return pictures;
    }

    private static Document.Picture picture(List<Row> rows, String id, boolean first) {
        List<String> words = rows.stream().map(FactorChart::words).toList();
        Svg svg = new Svg(
                id,
                WIDTH,
                rows.size() * ROW + 2 * TOP,
                "Measured factors against norm, cut-off and error",
                String.join(". ", words) + ".");
        for (int i = 0; i < rows.size(); i++) {
            row(svg, rows.get(i), TOP + i * ROW);
        }
        return new Document.Picture(
                svg.toString(),
                first
                        ? "Each axis has its own unit. A filled dot is a painful side (L left, R right) or the value the"
                                + " verdict rests on, an open dot the other side; its bar is the smallest change that is"
                                + " more than noise. Grey: a group of people, with its middle dotted. Dashed: borderline"
                                + " beyond. Double: contributes beyond, if the bar is passed too. Thin: both sides equal."
                                + " No bar: no error was read."
                        : "Further factors, drawn the same.",
                words);
    }

    static String verdict(FactorVerdict verdict) {
        return verdict.word().replace('-', ' ');
    }

    /** What a row shows, as a sentence without its full stop. */
    static String words(FactorResult factor, Gauge gauge) {
        List<String> parts = new ArrayList<>();
        List<String> marks = new ArrayList<>();
        for (Gauge.Mark mark : gauge.marks()) {
            marks.add((Plain.brief(mark.value()) + " " + gauge.unit() + " " + mark.side())
                    .replaceAll(" +", " ")
                    .strip());
        }
        parts.add((gauge.title().isEmpty() ? "" : gauge.title() + " ") + String.join(", ", marks));
        gauge.error().ifPresent(error -> parts.add("error bar " + Plain.brief(error) + " each way"));
        gauge.group().ifPresent(group -> parts.add("group " + group.words()));
        for (Gauge.Line line : gauge.lines()) {
            if (line.meaning() != Gauge.Meaning.EQUAL) {
                parts.add((line.meaning() == Gauge.Meaning.BORDERLINE ? "borderline beyond " : "contributes beyond ")
                        + Plain.brief(line.at()));
            }
        }
        return factor.label() + ": " + verdict(factor.verdict()) + "; " + String.join("; ", parts);
    }

    private static String words(Row row) {
        return words(row.factor(), row.gauge());
    }

    private record Axis(double low, double high) {
        double x(double value) {
            return LEFT + (value - low) / (high - low) * (RIGHT - LEFT);
        }
    }

    private static void row(Svg svg, Row row, int top) {
        Gauge gauge = row.gauge();
        String bold = row.factor().verdict() == FactorVerdict.CONTRIBUTES ? " font-weight=\"bold\"" : "";
        List<String> lines = new ArrayList<>();
        if (row.first()) {
            if (top > TOP) {
                svg.line(0, top - 5, WIDTH, top - 5, "stroke-width=\"0.5\" stroke-dasharray=\"1 3\"");
            }
            lines.addAll(fitted(row.factor().label(), LABEL));
            lines.forEach(line ->
                    svg.text(0, top + 10.0 + LINE * lines.indexOf(line), "start", "font-size=\"11\"" + bold, line));
        }
        String said = (row.first() ? verdict(row.factor().verdict()) : "")
                + (row.first() && !gauge.title().isEmpty() ? "; " : "")
                + gauge.title();
        svg.text(0, top + 10.0 + LINE * lines.size(), "start", "font-size=\"10\"", said);
        gauge.group()
                .ifPresent(group -> svg.text(
                        0,
                        top + 10.0 + LINE * (lines.size() + 1),
                        "start",
                        "font-size=\"9\"",
                        "grey: " + cut(group.words())));
        Axis axis = axis(gauge);
        gauge.group().ifPresent(group -> group(svg, axis, group, top));
        axis(svg, axis, gauge.unit(), top);
        gauge.lines().forEach(line -> line(svg, axis, line, top));
        for (int i = 0; i < gauge.marks().size(); i++) {
            int lane = gauge.marks().size() == 1 ? MIDDLE : i == 0 ? UPPER : LOWER;
            Gauge.Mark mark = gauge.marks().get(i);
            mark(svg, axis, gauge, mark, row.rests(mark), top + lane);
        }
    }

    /** A text on one line, ended where it does not fit; the words beside the picture have all of it. */
    private static String cut(String text) {
        List<String> lines = fitted(text, GROUP);
        return lines.size() == 1 ? text : lines.get(0).replaceAll("[,;]$", "") + " ...";
    }

    /** A text on two lines at most, broken between words. */
    private static List<String> fitted(String text, int room) {
        if (text.length() <= room) {
            return List.of(text);
        }
        int at = text.lastIndexOf(' ', room);
        String rest = text.substring(at + 1);
        return List.of(
                text.substring(0, at),
                rest.length() <= room ? rest : rest.substring(0, rest.lastIndexOf(' ', room - 4)) + " ...");
    }

    private static void mark(Svg svg, Axis axis, Gauge gauge, Gauge.Mark mark, boolean filled, int y) {
        double x = axis.x(mark.value());
        double begins = x;
        if (gauge.error().isPresent()) {
            double error = gauge.error().getAsDouble();
            begins = axis.x(mark.value() - error);
            double ends = axis.x(mark.value() + error);
            svg.line(begins, y, ends, y, "stroke-width=\"1.5\"");
            svg.line(begins, y - 3, begins, y + 3, "stroke-width=\"1.5\"");
            svg.line(ends, y - 3, ends, y + 3, "stroke-width=\"1.5\"");
        }
        svg.ellipse(x, y, 4, 4, "stroke-width=\"1.5\" fill=\"" + (filled ? "#000" : "#fff") + "\"");
        if (!mark.side().isEmpty()) {
            svg.text(
                    Math.min(begins, x - 4) - 4,
                    y + 3.5,
                    "end",
                    "font-size=\"9\" font-weight=\"bold\"",
                    mark.side().equals("left") ? "L" : "R");
        }
    }

    private static void group(Svg svg, Axis axis, Gauge.Group group, int top) {
        if (group.low().isPresent() || group.high().isPresent()) {
            double from = Math.max(LEFT, axis.x(group.low().orElse(axis.low())));
            double to = Math.min(RIGHT, axis.x(group.high().orElse(axis.high())));
            svg.rect(from, top + 1.0, to - from, AXIS - 1, "fill=\"#ddd\" stroke-width=\"0.5\"");
        }
        group.middle()
                .ifPresent(middle -> svg.line(
                        axis.x(middle),
                        top + 1,
                        axis.x(middle),
                        top + AXIS,
                        "stroke-width=\"0.75\" stroke-dasharray=\"1 2\""));
    }

    private static void line(Svg svg, Axis axis, Gauge.Line line, int top) {
        double x = axis.x(line.at());
        switch (line.meaning()) {
            case EQUAL -> svg.line(x, top, x, top + AXIS, "stroke-width=\"0.75\"");
            case BORDERLINE -> svg.line(x, top, x, top + AXIS, "stroke-width=\"1.25\" stroke-dasharray=\"4 2\"");
            case CONTRIBUTES -> {
                svg.line(x - 1.5, top, x - 1.5, top + AXIS, "stroke-width=\"1\"");
                svg.line(x + 1.5, top, x + 1.5, top + AXIS, "stroke-width=\"1\"");
            }
        }
    }

    private static void axis(Svg svg, Axis axis, String unit, int top) {
        int y = top + AXIS;
        svg.line(LEFT, y, RIGHT, y, "stroke-width=\"1\"");
        double step = step(axis.high() - axis.low());
        long first = (long) Math.ceil(axis.low() / step);
        long last = (long) Math.floor(axis.high() / step);
        for (long tick = first; tick <= last; tick++) {
            double x = axis.x(tick * step);
            svg.line(x, y, x, y + 3, "stroke-width=\"1\"");
            boolean end = tick == last;
            svg.text(
                    x,
                    y + 12,
                    "middle",
                    "font-size=\"9\"",
                    Plain.brief(tick * step) + (end && !unit.isEmpty() ? " " + unit : ""));
        }
    }

    /** The least round step that leaves few ticks. */
    private static double step(double span) {
        double power = Math.pow(10, Math.floor(Math.log10(span)) - 1);
        for (double round : new double[] {1, 2, 5, 10, 20, 50}) {
            if (span / (round * power) <= TICKS - 1) {
                return round * power;
            }
        }
        return 100 * power;
    }

    /** Holds everything that is drawn, with room at both ends. */
    private static Axis axis(Gauge gauge) {
        DoubleStream.Builder all = DoubleStream.builder();
        double error = gauge.error().orElse(0);
        gauge.marks().forEach(mark -> {
            all.add(mark.value() - error);
            all.add(mark.value() + error);
        });
        gauge.group().ifPresent(group -> {
            group.low().ifPresent(all::add);
            group.high().ifPresent(all::add);
            group.middle().ifPresent(all::add);
        });
        gauge.lines().forEach(line -> all.add(line.at()));
        double[] drawn = all.build().sorted().toArray();
        double low = drawn[0];
        double high = drawn[drawn.length - 1];
        double room = high > low ? MARGIN * (high - low) : Math.max(1, Math.abs(high) * MARGIN);
        return new Axis(low - room, high + room);
    }
}
