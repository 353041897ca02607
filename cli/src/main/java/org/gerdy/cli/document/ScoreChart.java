package org.gerdy.cli.document;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.gerdy.engine.review.Change;
import org.gerdy.engine.review.Instrument;
import org.gerdy.engine.review.ScoreVisit;

/** Each score over the visits, with the band of measurement error round its first value. */
final class ScoreChart {
    private static final int WIDTH = 230;
    private static final int ACROSS = 3;
    private static final int HEIGHT = 152;
    private static final int LEFT = 30;
    private static final int RIGHT = 218;
    private static final int TOP = 36;
    private static final int BOTTOM = 126;

    private ScoreChart() {}

    private record Point(LocalDate date, double total) {}

    /** The chart of these changes; each is a panel of its own, three to a row. */
    static Document.Picture of(List<Change> changes, List<ScoreVisit> scores) {
        List<String> words = new ArrayList<>();
        int rows = (changes.size() + ACROSS - 1) / ACROSS;
        for (Change change : changes) {
            StringBuilder line = new StringBuilder(change.instrument().label() + ": ");
            List<String> points = new ArrayList<>();
            points(change.instrument(), scores)
                    .forEach(point -> points.add(Naming.number(point.total()) + " on " + point.date()));
            line.append(String.join(", ", points)).append("; error band ").append(band(change));
            words.add(line.append("; ").append(change.verdict().words()).toString());
        }
        Svg svg = new Svg(
                "scores-picture",
                ACROSS * WIDTH,
                Math.max(1, rows) * HEIGHT,
                "Scores over the visits",
                String.join(". ", words) + ".");
        for (int i = 0; i < changes.size(); i++) {
            panel(svg, changes.get(i), scores, i % ACROSS * WIDTH, i / ACROSS * HEIGHT);
        }
        return new Document.Picture(
                svg.toString(),
                "Scores over the visits. The grey band is measurement error round the first score: a point inside it"
                        + " cannot be told from no change. Whether up or down is better stands under each title.",
                words);
    }

    private static String band(Change change) {
        OptionalDouble error = change.threshold().errorPoints();
        return error.isEmpty()
                ? "not known"
                : Naming.number(Math.max(change.instrument().low(), change.baseline() - error.getAsDouble())) + " to "
                        + Naming.number(Math.min(
                                change.instrument().high().orElse(Double.MAX_VALUE),
                                change.baseline() + error.getAsDouble()));
    }

    /** Mean over the parts recorded first; a visit with a part missing has no point. */
    private static List<Point> points(Instrument instrument, List<ScoreVisit> scores) {
        List<String> parts = new ArrayList<>();
        List<Point> points = new ArrayList<>();
        for (ScoreVisit visit : scores) {
            if (parts.isEmpty()) {
                instrument.findings().stream()
                        .filter(visit.totals()::containsKey)
                        .forEach(parts::add);
            }
            if (!parts.isEmpty() && visit.totals().keySet().containsAll(parts)) {
                points.add(new Point(
                        visit.date(),
                        parts.stream()
                                .mapToDouble(part -> visit.totals().getOrDefault(part, Double.NaN))
                                .average()
                                .orElse(Double.NaN)));
            }
        }
        return points;
    }

    private static void panel(Svg svg, Change change, List<ScoreVisit> scores, int left, int top) {
        Instrument instrument = change.instrument();
        List<Point> points = points(instrument, scores);
        double low = instrument.low();
        double high = instrument
                .high()
                .orElse(points.stream().mapToDouble(Point::total).max().orElse(1));
        svg.text(left + 6, top + 13, "start", "font-weight=\"bold\" font-size=\"11\"", instrument.label());
        svg.text(
                left + 6,
                top + 25,
                "start",
                "font-size=\"10\"",
                (instrument.higherIsBetter() ? "up is better" : "down is better") + "; "
                        + change.verdict().words());
        OptionalDouble error = change.threshold().errorPoints();
        if (error.isPresent()) {
            double upper = y(Math.min(high, change.baseline() + error.getAsDouble()), low, high) + top;
            double lower = y(Math.max(low, change.baseline() - error.getAsDouble()), low, high) + top;
            svg.rect(
                    left + LEFT,
                    upper,
                    RIGHT - LEFT,
                    lower - upper,
                    "fill=\"#ddd\" stroke-width=\"0.75\" stroke-dasharray=\"3 2\"");
        }
        svg.line(left + LEFT, top + TOP, left + LEFT, top + BOTTOM, "stroke-width=\"1\"");
        svg.line(left + LEFT, top + BOTTOM, left + RIGHT, top + BOTTOM, "stroke-width=\"1\"");
        svg.text(left + LEFT - 5, top + TOP + 4, "end", "font-size=\"10\"", Naming.number(high));
        svg.text(left + LEFT - 5, top + BOTTOM + 4, "end", "font-size=\"10\"", Naming.number(low));
        LocalDate first = scores.get(0).date();
        double span = Math.max(
                1, ChronoUnit.DAYS.between(first, scores.get(scores.size() - 1).date()));
        double x0 = 0;
        double y0 = 0;
        for (int i = 0; i < points.size(); i++) {
            Point point = points.get(i);
            double part = ChronoUnit.DAYS.between(first, point.date()) / span;
            double x = left + LEFT + 26 + part * (RIGHT - LEFT - 46);
            double y = top + y(point.total(), low, high);
            if (i > 0) {
                svg.line(x0, y0, x, y, "stroke-width=\"1.5\"");
            }
            x0 = x;
            y0 = y;
            svg.ellipse(x, y, 4, 4, "fill=\"#000\" stroke-width=\"1\"");
            // On the side the line does not take.
            boolean rises =
                    points.get(points.size() - 1).total() > points.get(0).total();
            for (String style : List.of("stroke=\"#fff\" stroke-width=\"3\"", "")) {
                svg.text(
                        rises ? x - 5 : x + 5,
                        y - 6,
                        rises ? "end" : "start",
                        "font-size=\"10\" font-weight=\"bold\" " + style,
                        Naming.number(point.total()));
            }
            svg.text(x, top + BOTTOM + 13, "middle", "font-size=\"9\"", Naming.dayOfMonth(point.date()));
        }
    }

    private static double y(double value, double low, double high) {
        return BOTTOM - (value - low) / Math.max(1e-9, high - low) * (BOTTOM - TOP);
    }
}
