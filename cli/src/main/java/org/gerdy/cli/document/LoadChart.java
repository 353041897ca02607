package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.List;
import org.gerdy.engine.plan.ReturnSchedule;

/** The runs logged, as bars by distance; a run longer than the session cap allowed is black and named. */
final class LoadChart {
    private static final int LEFT = 46;
    private static final int BAR = 26;
    private static final int TOP = 24;
    private static final int BOTTOM = 140;
    private static final int MOST = 18;

    private LoadChart() {}

    /** The chart of these runs, the latest where there are many; at least one is needed. */
    static Document.Picture of(List<ReturnSchedule.Judged> judged) {
        List<ReturnSchedule.Judged> shown = judged.subList(Math.max(0, judged.size() - MOST), judged.size());
        List<String> words = new ArrayList<>();
        shown.forEach(one -> words.add(Naming.shortDay(one.run().date()) + ": "
                + Naming.km(one.run().metres())
                + (one.overCap() ? ", longer than the cap allowed" : "")));
        long most = shown.stream().mapToLong(one -> one.run().metres()).max().orElse(1);
        Svg svg = new Svg(
                "load-picture",
                Math.max(460, LEFT + shown.size() * (BAR + 8) + 20),
                BOTTOM + 34,
                "Distance of each run logged",
                String.join("; ", words) + ".");
        svg.line(LEFT, TOP, LEFT, BOTTOM, "stroke-width=\"1\"");
        svg.line(LEFT, BOTTOM, LEFT + shown.size() * (BAR + 8) + 10, BOTTOM, "stroke-width=\"1\"");
        svg.text(LEFT - 5, TOP + 4, "end", "font-size=\"10\"", Naming.km(most));
        svg.text(LEFT - 5, BOTTOM + 4, "end", "font-size=\"10\"", "0");
        for (int i = 0; i < shown.size(); i++) {
            ReturnSchedule.Judged one = shown.get(i);
            double height = Math.max(1, (double) one.run().metres() / most * (BOTTOM - TOP));
            double x = LEFT + 8 + i * (BAR + 8.0);
            svg.rect(
                    x,
                    BOTTOM - height,
                    BAR,
                    height,
                    "stroke-width=\"1.2\" fill=\"" + (one.overCap() ? "#000" : "#ddd") + "\"");
            if (one.overCap()) {
                svg.text(x + BAR / 2.0, BOTTOM - height - 5, "middle", "font-size=\"9\" font-weight=\"bold\"", "over");
            }
            svg.text(
                    x + BAR / 2.0,
                    BOTTOM + 13,
                    "middle",
                    "font-size=\"9\"",
                    Naming.dayOfMonth(one.run().date()));
        }
        return new Document.Picture(
                svg.toString(),
                "Distance of each run logged. A black bar marked over is longer than the cap of the days before allowed.",
                words);
    }
}
