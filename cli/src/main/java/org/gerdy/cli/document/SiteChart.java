package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.Table;

/** Where it hurts, on outlines of the outer, front and back side; a left leg is the mirror of a right one. */
final class SiteChart {
    private static final List<String> VIEWS = List.of("outer", "front", "back");
    private static final int WIDTH = 120;
    private static final int GAP = 50;
    private static final int TOP = 22;
    private static final int HEIGHT = 220;

    private record Site(
            String label, String view, OptionalDouble x, OptionalDouble y, OptionalDouble rx, OptionalDouble ry) {}

    private final Naming naming;
    private final Map<String, Site> sites = new LinkedHashMap<>();

    SiteChart(Naming naming) {
        this.naming = naming;
        Table.read(naming.knowledge().files(), "knowledge/body-chart.csv", List.of("site", "label", "view", "x", "y"))
                .map(row -> sites.put(
                        row.required("site"),
                        new Site(
                                row.required("label"),
                                row.text("view"),
                                row.number("x"),
                                row.number("y"),
                                row.number("rx"),
                                row.number("ry"))));
    }

    /** The chart of each painful side for which a place was recorded. */
    List<Document.Picture> of(Observations observations, List<String> findings) {
        List<Document.Picture> pictures = new ArrayList<>();
        for (Side side : observations.side().each()) {
            List<Site> marked = findings.stream()
                    .flatMap(id -> observations.recorded(id).stream())
                    .flatMap(recorded -> recorded.on(side).stream())
                    .map(Answer::text)
                    .flatMap(text -> Optional.ofNullable(sites.get(text)).stream())
                    .distinct()
                    .toList();
            if (!marked.isEmpty()) {
                pictures.add(picture(side, marked));
            }
        }
        return pictures;
    }

    private Document.Picture picture(Side side, List<Site> marked) {
        List<String> words = new ArrayList<>();
        for (int i = 0; i < marked.size(); i++) {
            Site site = marked.get(i);
            words.add((i + 1) + ": " + site.label() + (site.view().isEmpty() ? "" : " (" + site.view() + " view)"));
        }
        Svg svg = new Svg(
                "site-" + side.word(),
                VIEWS.size() * (WIDTH + GAP) - GAP,
                TOP + HEIGHT,
                "Where it hurts, " + side.word() + " side",
                "Outlines seen from the outer side, the front and the back. Marked: " + String.join("; ", words) + ".");
        for (int i = 0; i < VIEWS.size(); i++) {
            view(svg, VIEWS.get(i), i * (WIDTH + GAP), side, marked);
        }
        return new Document.Picture(
                svg.toString(), "Where it hurts, " + side.word() + " side. " + String.join("; ", words) + ".", words);
    }

    private void view(Svg svg, String view, int left, Side side, List<Site> marked) {
        boolean mirrored = side == Side.LEFT;
        svg.text(left + WIDTH / 2.0, 14, "middle", "font-size=\"12\" font-weight=\"bold\"", view + " view");
        String outline = naming.drawing("knee-" + view).orElse("<svg></svg>");
        String inside = outline.substring(outline.indexOf('>') + 1, outline.lastIndexOf("</svg>"));
        svg.raw("<g transform=\"translate(" + (mirrored ? left + WIDTH : left) + "," + TOP + ")"
                + (mirrored ? " scale(-1,1)" : "") + "\">" + inside + "</g>");
        for (int i = 0; i < marked.size(); i++) {
            Site site = marked.get(i);
            if (site.view().equals(view)) {
                double x = left
                        + (mirrored ? WIDTH - site.x().orElseThrow() : site.x().orElseThrow());
                double y = TOP + site.y().orElseThrow();
                double rx = site.rx().orElseThrow();
                svg.ellipse(
                        x, y, rx, site.ry().orElseThrow(), "stroke-width=\"2.5\" fill=\"#000\" fill-opacity=\"0.25\"");
                svg.line(x, y, left + WIDTH + 8, y - 18, "stroke-width=\"1\"");
                svg.text(
                        left + WIDTH + 12,
                        y - 16,
                        "start",
                        "font-size=\"15\" font-weight=\"bold\"",
                        Integer.toString(i + 1));
            }
        }
    }
}
