package org.gerdy.cli.document;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.format.TextStyle;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.gerdy.engine.plan.ReturnSchedule;

/** The way back to running as a calendar of weeks. */
final class CalendarChart {
    /** Weeks drawn; the list beside it has every session. */
    private static final int MOST_WEEKS = 8;

    private static final int LEFT = 60;
    private static final int CELL = 84;
    private static final int ROW = 36;
    private static final int TOP = 22;

    private CalendarChart() {}

    private record Mark(String distance, String what, boolean done) {}

    static Document.Picture of(String id, ReturnSchedule.Schedule schedule) {
        Map<LocalDate, Mark> marks = new TreeMap<>();
        schedule.judged()
                .forEach(judged -> marks.put(
                        judged.run().date(), new Mark(Naming.km(judged.run().metres()), "done", true)));
        schedule.sessions()
                .forEach(session -> marks.put(
                        session.date(),
                        new Mark(
                                Naming.kmToRun(session.metres()),
                                "step " + session.step().phase(),
                                false)));
        List<String> words = new ArrayList<>();
        marks.forEach((date, mark) -> words.add(
                Naming.shortDay(date) + ": " + mark.distance() + ", " + (mark.done() ? "done" : mark.what())));
        LocalDate first = marks.keySet().iterator().next();
        LocalDate last = new ArrayList<>(marks.keySet()).get(marks.size() - 1);
        LocalDate monday = first.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
        int weeks = 1;
        while (weeks < MOST_WEEKS && !monday.plusWeeks(weeks).isAfter(last)) {
            weeks++;
        }
        Svg svg = new Svg(
                id,
                LEFT + 7 * CELL + 2,
                TOP + weeks * ROW + 2,
                "The way back to running as a calendar",
                String.join("; ", words) + ".");
        for (int day = 0; day < 7; day++) {
            svg.text(
                    LEFT + day * CELL + CELL / 2.0,
                    14,
                    "middle",
                    "font-size=\"11\" font-weight=\"bold\"",
                    DayOfWeek.of(day + 1).getDisplayName(TextStyle.SHORT, Locale.UK));
        }
        for (int week = 0; week < weeks; week++) {
            LocalDate start = monday.plusWeeks(week);
            double y = TOP + week * ROW;
            svg.text(
                    LEFT - 6,
                    y + 22,
                    "end",
                    "font-size=\"10\"",
                    start.getDayOfMonth() + " " + start.getMonth().getDisplayName(TextStyle.SHORT, Locale.UK));
            for (int day = 0; day < 7; day++) {
                Mark mark = marks.get(start.plusDays(day));
                double x = LEFT + day * CELL;
                svg.rect(x, y, CELL, ROW, "fill=\"none\" stroke-width=\"0.5\"");
                if (mark != null) {
                    svg.rect(
                            x + 3,
                            y + 3,
                            CELL - 6,
                            ROW - 6,
                            mark.done()
                                    ? "fill=\"#ddd\" stroke-width=\"1\" stroke-dasharray=\"3 2\""
                                    : "fill=\"#fff\" stroke-width=\"2.2\"");
                    svg.text(
                            x + CELL / 2.0, y + 16, "middle", "font-size=\"12\" font-weight=\"bold\"", mark.distance());
                    svg.text(x + CELL / 2.0, y + 28, "middle", "font-size=\"10\"", mark.what());
                }
            }
        }
        String more = last.isBefore(monday.plusWeeks(weeks)) ? "" : " The list has the weeks after these.";
        return new Document.Picture(
                svg.toString(),
                "Each row is a week from Monday. A bold frame is a run to come, a grey field a run done." + more,
                List.of());
    }
}
