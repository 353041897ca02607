package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.gerdy.cli.Words;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;

/** Candidates as dots on a line from 0 to 100 %, each with its bounds. */
final class CandidateChart {
    private static final int SHOWN = 8;
    private static final int ROW = 26;
    private static final int LEFT = 300;
    private static final int WIDE = 260;

    private CandidateChart() {}

    static Document.Picture of(Assessment assessment) {
        List<CandidateResult> shown = assessment.candidates().stream()
                .filter(candidate -> candidate.standing() != Standing.UNLIKELY)
                .limit(SHOWN)
                .toList();
        List<String> words = new ArrayList<>();
        shown.forEach(candidate -> words.add(candidate.name() + ": " + Words.percent(candidate.share()) + " ("
                + Words.percent(candidate.low()) + " to " + Words.percent(candidate.high()) + "), "
                + candidate.standing().word()));
        int height = shown.size() * ROW + 34;
        Svg svg = new Svg(
                "candidates-picture",
                LEFT + WIDE + 130,
                height,
                "Candidates with their bounds",
                String.join("; ", words) + ".");
        for (int tick = 0; tick <= 100; tick += 25) {
            double x = x(tick / 100.0);
            svg.line(x, 6, x, height - 26, "stroke-width=\"0.5\" stroke-dasharray=\"2 3\"");
            svg.text(x, height - 10, "middle", "font-size=\"10\"", tick + "%");
        }
        int y = 20;
        for (CandidateResult candidate : shown) {
            boolean leading = candidate.standing() == Standing.LEADING;
            svg.text(LEFT - 12, y + 4, "end", leading ? "font-weight=\"bold\"" : "", fitted(candidate.name()));
            svg.line(x(candidate.low()), y, x(candidate.high()), y, "stroke-width=\"2\"");
            svg.line(x(candidate.low()), y - 4, x(candidate.low()), y + 4, "stroke-width=\"1.5\"");
            svg.line(x(candidate.high()), y - 4, x(candidate.high()), y + 4, "stroke-width=\"1.5\"");
            svg.ellipse(
                    x(candidate.share()), y, 5, 5, "stroke-width=\"1.5\" fill=\"" + (leading ? "#000" : "#fff") + "\"");
            svg.text(
                    LEFT + WIDE + 14,
                    y + 4,
                    "start",
                    "font-size=\"11\"",
                    Words.percent(candidate.share()) + ", "
                            + candidate.standing().word().toLowerCase(Locale.ROOT));
            y += ROW;
        }
        return new Document.Picture(
                svg.toString(),
                "Share of each candidate with its 95% bounds; a filled dot leads. Shares order the candidates and are"
                        + " not validated probabilities.",
                List.of());
    }

    private static String fitted(String name) {
        return name.length() <= 46 ? name : name.substring(0, name.lastIndexOf(' ', 44)) + " ...";
    }

    private static double x(double share) {
        return LEFT + share * WIDE;
    }
}
