package org.gerdy.engine.load;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.casefile.Session;
import org.gerdy.engine.load.LoadHistory.Amount;

/** Works out the numbers of a report for one end day; each says what it needs when it is not there. */
final class LoadQuantities {
    private static final int WEEK = 7;
    private static final double METRES = 1000;
    private static final String KM = "km";
    private static final String AU = "AU";

    private final LoadHistory history;
    private final LocalDate end;
    private final LoadSettings settings;

    LoadQuantities(LoadHistory history, LocalDate end, LoadSettings settings) {
        this.history = history;
        this.end = end;
        this.settings = settings;
    }

    List<Quantity> all() {
        List<Quantity> all = new ArrayList<>();
        all.add(daysRun(settings.acuteDays()));
        all.add(daysRun(settings.chronicDays()));
        all.add(longest());
        for (Amount amount : Amount.values()) {
            windows(all, amount);
        }
        monotony(all);
        all.add(climbChange());
        all.add(newSurfaces());
        return all;
    }

    private static String suffix(Amount amount) {
        return amount == Amount.METRES ? "distance" : "effort";
    }

    private static String unit(Amount amount) {
        return amount == Amount.METRES ? KM : AU;
    }

    private static double shown(double value, Amount amount) {
        return amount == Amount.METRES ? value / METRES : value;
    }

    private void windows(List<Quantity> all, Amount amount) {
        String what = amount == Amount.METRES ? "distance" : "session load (effort x min)";
        int acute = settings.acuteDays();
        int chronic = settings.chronicDays();
        Optional<double[]> recent = history.window(end, acute, amount);
        Optional<double[]> usual = history.window(end, chronic, amount);
        double weeks = chronic / (double) WEEK;
        all.add(one(
                "acute-" + suffix(amount),
                "Last " + acute + " days, " + what,
                recent.map(days -> shown(LoadMath.sum(days), amount)),
                unit(amount),
                needs(acute, amount)));
        all.add(one(
                "chronic-" + suffix(amount),
                "Mean week of the last " + chronic + " days, " + what,
                usual.map(days -> shown(LoadMath.sum(days) / weeks, amount)),
                unit(amount),
                needs(chronic, amount)));
        all.add(ratio(
                "ratio-coupled-" + suffix(amount), "Recent over usual, " + what + ", coupled", usual, true, amount));
        all.add(ratio(
                "ratio-uncoupled-" + suffix(amount),
                "Recent over usual, " + what + ", uncoupled",
                usual,
                false,
                amount));
        all.add(weekChange(amount, what));
        weighted(all, amount, what);
    }

    private Quantity ratio(String id, String label, Optional<double[]> days, boolean coupled, Amount amount) {
        if (days.isEmpty()) {
            return Quantity.none(id, label, "ratio", needs(settings.chronicDays(), amount));
        }
        OptionalDouble ratio = coupled
                ? LoadMath.coupledRatio(days.get(), settings.acuteDays())
                : LoadMath.uncoupledRatio(days.get(), settings.acuteDays());
        return ratio.isEmpty()
                ? Quantity.none(id, label, "ratio", "Nothing in the usual window to divide by.")
                : Quantity.of(id, label, ratio.getAsDouble(), "ratio", "A description, not a warning.");
    }

    private Quantity weekChange(Amount amount, String what) {
        String id = "week-change-" + suffix(amount);
        String label = "Last 7 days against the 7 before, " + what;
        Optional<double[]> now = history.window(end, WEEK, amount);
        Optional<double[]> before = history.window(end.minusDays(WEEK), WEEK, amount);
        if (now.isEmpty() || before.isEmpty()) {
            return Quantity.none(id, label, "percent", needs(2 * WEEK, amount));
        }
        OptionalDouble change = LoadMath.changePercent(LoadMath.sum(before.get()), LoadMath.sum(now.get()));
        return change.isEmpty()
                ? Quantity.none(id, label, "percent", "Nothing in the week before: first week back.")
                : Quantity.of(id, label, change.getAsDouble(), "percent", "");
    }

    private void weighted(List<Quantity> all, Amount amount, String what) {
        int unbroken = history.unbroken(end, amount);
        String id = "weighted-";
        String label = "Exponentially weighted ";
        if (unbroken < settings.chronicDays()) {
            String why = "Needs " + settings.chronicDays() + " days without a gap up to " + end + "; there are "
                    + unbroken + ".";
            all.add(Quantity.none(id + "acute-" + suffix(amount), label + "recent day, " + what, unit(amount), why));
            all.add(Quantity.none(id + "chronic-" + suffix(amount), label + "usual day, " + what, unit(amount), why));
            all.add(Quantity.none(id + "ratio-" + suffix(amount), label + "ratio, " + what, "ratio", why));
            return;
        }
        double[] days = history.window(end, unbroken, amount).orElseThrow();
        double recent = LoadMath.weightedMean(days, settings.acuteDays());
        double usual = LoadMath.weightedMean(days, settings.chronicDays());
        String remark = unbroken < settings.steadyDays()
                ? String.format(
                        Locale.ROOT,
                        "Provisional: the first day still makes up %.1f %% of the usual load.",
                        100 * LoadMath.shareOfFirstDay(unbroken, settings.chronicDays()))
                : "";
        all.add(Quantity.of(
                id + "acute-" + suffix(amount),
                label + "recent day, " + what,
                shown(recent, amount),
                unit(amount),
                remark));
        all.add(Quantity.of(
                id + "chronic-" + suffix(amount),
                label + "usual day, " + what,
                shown(usual, amount),
                unit(amount),
                remark));
        all.add(
                usual > 0
                        ? Quantity.of(
                                id + "ratio-" + suffix(amount),
                                label + "ratio, " + what,
                                recent / usual,
                                "ratio",
                                remark)
                        : Quantity.none(
                                id + "ratio-" + suffix(amount),
                                label + "ratio, " + what,
                                "ratio",
                                "Nothing in the usual load to divide by."));
    }

    private void monotony(List<Quantity> all) {
        Optional<double[]> week = history.window(end, WEEK, Amount.EFFORT);
        String why = needs(WEEK, Amount.EFFORT);
        if (week.isEmpty()) {
            all.add(Quantity.none("monotony", "Monotony of the last 7 days", "ratio", why));
            all.add(Quantity.none("strain", "Strain of the last 7 days", AU, why));
            return;
        }
        OptionalDouble monotony = LoadMath.monotony(week.get());
        boolean even = monotony.isEmpty() || monotony.getAsDouble() > settings.highestMonotony();
        String remark = "All days alike, or nearly: a very even week, no number is shown.";
        all.add(
                even
                        ? Quantity.none("monotony", "Monotony of the last 7 days", "ratio", remark)
                        : Quantity.of(
                                "monotony",
                                "Monotony of the last 7 days",
                                monotony.getAsDouble(),
                                "ratio",
                                "Sample SD, rest days included."));
        all.add(
                even
                        ? Quantity.none("strain", "Strain of the last 7 days", AU, remark)
                        : Quantity.of(
                                "strain",
                                "Strain of the last 7 days",
                                LoadMath.strain(week.get()).orElseThrow(),
                                AU,
                                ""));
    }

    private Quantity daysRun(int days) {
        int count = 0;
        for (int i = 0; i < days; i++) {
            count += history.runs(end.minusDays(i)) > 0 ? 1 : 0;
        }
        int known = history.known(end, days, Amount.METRES);
        return Quantity.of(
                "days-run-" + days,
                "Days run in the last " + days,
                count,
                "days",
                known < days ? days - known + " days unknown." : "");
    }

    private Quantity longest() {
        long longest = 0;
        for (int i = 0; i < settings.referenceDays(); i++) {
            longest = Math.max(longest, history.longest(end.minusDays(i)));
        }
        String label = "Longest run of the last " + settings.referenceDays() + " days";
        return longest == 0
                ? Quantity.none("longest-run", label, KM, "No run in these days.")
                : Quantity.of("longest-run", label, longest / METRES, KM, "");
    }

    /** Climb and descent of the last week against the mean week of the three before. */
    private Quantity climbChange() {
        String label = "Descent of the last 7 days against the mean week before";
        double recent = 0;
        double before = 0;
        boolean known = false;
        for (Session session : history.sessions()) {
            long back = end.toEpochDay() - session.day().toEpochDay();
            if (back < 0 || back >= settings.chronicDays() || !session.running()) {
                continue;
            }
            if (session.descent().isEmpty()) {
                return Quantity.none("descent-change", label, "percent", "Heights are not recorded for every run.");
            }
            known = true;
            if (back < WEEK) {
                recent += session.descent().getAsDouble();
            } else {
                before += session.descent().getAsDouble();
            }
        }
        double weeks = (settings.chronicDays() - WEEK) / (double) WEEK;
        OptionalDouble change = known ? LoadMath.changePercent(before / weeks, recent) : OptionalDouble.empty();
        return change.isEmpty()
                ? Quantity.none("descent-change", label, "percent", "No descent recorded before to compare with.")
                : Quantity.of(
                        "descent-change", label, change.getAsDouble(), "percent", "Smoothed heights of a device.");
    }

    /** How many surfaces of the last 30 days were never written down before. */
    private Quantity newSurfaces() {
        String label = "Surfaces or hills new in the last " + settings.referenceDays() + " days";
        java.util.Set<String> earlier = new java.util.TreeSet<>();
        java.util.Set<String> recent = new java.util.TreeSet<>();
        for (Session session : history.sessions()) {
            long back = end.toEpochDay() - session.day().toEpochDay();
            if (!session.surface().isEmpty() && back >= 0) {
                (back < settings.referenceDays() ? recent : earlier)
                        .add(session.surface().toLowerCase(Locale.ROOT));
            }
        }
        if (earlier.isEmpty()) {
            return Quantity.none("new-surfaces", label, "", "No surface is written down before these days.");
        }
        recent.removeAll(earlier);
        return Quantity.of("new-surfaces", label, recent.size(), "", String.join(", ", recent));
    }

    private String needs(int days, Amount amount) {
        int known = history.known(end, days, amount);
        String what = amount == Amount.METRES ? "a distance or rest" : "effort and duration, or rest";
        return "Needs " + days + " days with " + what + " up to " + end + "; " + known + " are known.";
    }

    private static Quantity one(String id, String label, Optional<Double> value, String unit, String why) {
        return value.map(number -> Quantity.of(id, label, number, unit, ""))
                .orElseGet(() -> Quantity.none(id, label, unit, why));
    }
}
