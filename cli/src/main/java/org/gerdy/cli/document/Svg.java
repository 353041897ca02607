package org.gerdy.cli.document;

import java.util.Locale;
import org.gerdy.cli.audit.Html;

/** A drawing put together piece by piece. Black, white and grey only; carries its own title and description. */
final class Svg {
    private final StringBuilder body = new StringBuilder();

    /** An empty drawing; {@code id} is unique in its document. */
    Svg(String id, int width, int height, String title, String description) {
        body.append("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ")
                .append(width)
                .append(' ')
                .append(height)
                .append("\" width=\"")
                .append(width)
                .append("\" height=\"")
                .append(height)
                .append("\" role=\"img\" aria-labelledby=\"")
                .append(id)
                .append("-title ")
                .append(id)
                .append(
                        "-desc\" font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\" font-size=\"12\">\n<title id=\"")
                .append(id)
                .append("-title\">")
                .append(Html.escape(title))
                .append("</title>\n<desc id=\"")
                .append(id)
                .append("-desc\">")
                .append(Html.escape(description))
                .append("</desc>\n");
    }

    /** Ready-made pieces, such as the inside of a stored drawing. */
    Svg raw(String pieces) {
        body.append(pieces).append('\n');
        return this;
    }

    Svg line(double x1, double y1, double x2, double y2, String style) {
        body.append(String.format(
                Locale.ROOT,
                "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#000\" %s/>\n",
                x1,
                y1,
                x2,
                y2,
                style));
        return this;
    }

    Svg rect(double x, double y, double width, double height, String style) {
        body.append(String.format(
                Locale.ROOT,
                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" stroke=\"#000\" %s/>\n",
                x,
                y,
                width,
                height,
                style));
        return this;
    }

    Svg ellipse(double x, double y, double rx, double ry, String style) {
        body.append(String.format(
                Locale.ROOT,
                "<ellipse cx=\"%.1f\" cy=\"%.1f\" rx=\"%.1f\" ry=\"%.1f\" stroke=\"#000\" %s/>\n",
                x,
                y,
                rx,
                ry,
                style));
        return this;
    }

    /** Text; {@code anchor} is start, middle or end. */
    Svg text(double x, double y, String anchor, String style, String text) {
        body.append(String.format(
                Locale.ROOT,
                "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" %s>%s</text>\n",
                x,
                y,
                anchor,
                style,
                Html.escape(text)));
        return this;
    }

    @Override
    public String toString() {
        return body.toString().replace("\r", "") + "</svg>";
    }
}
