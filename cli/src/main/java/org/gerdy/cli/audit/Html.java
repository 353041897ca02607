package org.gerdy.cli.audit;

import java.util.List;
import java.util.Locale;

/** A page in one file: no outside resources, readable in black and white, charts with the same told in words. */
public final class Html {
    private static final String STYLE = """
            body { font: 16px/1.5 Georgia, serif; max-width: 60em; margin: 2em auto; padding: 0 1em; color: #000; background: #fff; }
            table { border-collapse: collapse; margin: 1em 0; width: 100%; }
            th, td { border: 1px solid #000; padding: 0.25em 0.5em; text-align: left; vertical-align: top; overflow-wrap: break-word; }
            svg { max-width: 100%; height: auto; }
            .loud { border: 4px solid #000; padding: 0.5em 1em; font-weight: bold; }
            code { font-size: 0.9em; }
            @media print { body { margin: 0; font-size: 11px; } }
            """;

    private final StringBuilder body = new StringBuilder();
    private final String title;

    /** A page with this title as its first heading. */
    public Html(String title) {
        this.title = title;
        body.append("<h1>").append(escape(title)).append("</h1>\n");
    }

    /** Text made safe for a page. */
    public static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }

    /** A heading of the second level. */
    public Html heading(String text) {
        body.append("<h2>").append(escape(text)).append("</h2>\n");
        return this;
    }

    /** A paragraph. */
    public Html paragraph(String text) {
        body.append("<p>").append(escape(text)).append("</p>\n");
        return this;
    }

    /** A boxed paragraph that cannot be overlooked. */
    public Html loud(String text) {
        body.append("<p class=\"loud\">").append(escape(text)).append("</p>\n");
        return this;
    }

    /** A table; the first cell of each row heads it. */
    public Html table(String caption, List<String> columns, List<List<String>> rows) {
        body.append("<table>\n<caption>").append(escape(caption)).append("</caption>\n<thead><tr>");
        columns.forEach(column ->
                body.append("<th scope=\"col\">").append(escape(column)).append("</th>"));
        body.append("</tr></thead>\n<tbody>\n");
        for (List<String> row : rows) {
            body.append("<tr>");
            for (int i = 0; i < row.size(); i++) {
                body.append(i == 0 ? "<th scope=\"row\">" : "<td>")
                        .append(escape(row.get(i)))
                        .append(i == 0 ? "</th>" : "</td>");
            }
            body.append("</tr>\n");
        }
        body.append("</tbody>\n</table>\n");
        return this;
    }

    /** A bar for each name, as part of the greatest possible, with its figure written beside it. */
    public Html bars(String name, List<Bar> bars) {
        int height = bars.size() * 28 + 8;
        String told = String.join(
                "; ", bars.stream().map(bar -> bar.name() + " " + bar.figure()).toList());
        body.append("<svg role=\"img\" viewBox=\"0 0 720 ")
                .append(height)
                .append("\" width=\"720\" height=\"")
                .append(height)
                .append("\" aria-label=\"")
                .append(escape(name + ": " + told))
                .append("\">\n");
        int y = 4;
        for (Bar bar : bars) {
            body.append(String.format(
                    Locale.ROOT,
                    "<text x=\"0\" y=\"%d\" font-size=\"13\">%s</text><rect x=\"200\" y=\"%d\" width=\"300\" height=\"18\""
                            + " fill=\"none\" stroke=\"#000\"/><rect x=\"200\" y=\"%d\" width=\"%.1f\" height=\"18\""
                            + " fill=\"#555\"/><text x=\"510\" y=\"%d\" font-size=\"13\">%s</text>%n",
                    y + 14,
                    escape(bar.name()),
                    y,
                    y,
                    300 * Math.max(0, Math.min(1, bar.part())),
                    y + 14,
                    escape(bar.figure())));
            y += 28;
        }
        body.append("</svg>\n");
        return this;
    }

    /** One bar. */
    public record Bar(String name, double part, String figure) {}

    /** Drawn points, said share against found part, with the line where both are equal. */
    public Html points(String name, List<double[]> points) {
        String told = String.join(
                "; ",
                points.stream()
                        .map(point -> String.format(Locale.ROOT, "said %.2f found %.2f", point[0], point[1]))
                        .toList());
        body.append("<svg role=\"img\" viewBox=\"0 0 360 360\" width=\"360\" height=\"360\" aria-label=\"")
                .append(escape(name + ": " + told))
                .append(
                        "\">\n<rect x=\"40\" y=\"10\" width=\"300\" height=\"300\" fill=\"none\" stroke=\"#000\"/>"
                                + "<line x1=\"40\" y1=\"310\" x2=\"340\" y2=\"10\" stroke=\"#000\" stroke-dasharray=\"4 4\"/>\n");
        for (double[] point : points) {
            body.append(String.format(
                    Locale.ROOT,
                    "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"5\" fill=\"#000\"/>%n",
                    40 + 300 * point[0],
                    310 - 300 * point[1]));
        }
        body.append("<text x=\"120\" y=\"345\" font-size=\"13\">share said, 0 to 1</text>"
                + "<text x=\"0\" y=\"0\" font-size=\"13\" transform=\"translate(20 230) rotate(-90)\">part found, 0 to 1"
                + "</text>\n</svg>\n");
        return this;
    }

    @Override
    public String toString() {
        return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\""
                + " content=\"width=device-width, initial-scale=1\">\n<title>" + escape(title) + "</title>\n<style>\n"
                + STYLE + "</style>\n</head>\n<body>\n" + body + "</body>\n</html>\n";
    }
}
