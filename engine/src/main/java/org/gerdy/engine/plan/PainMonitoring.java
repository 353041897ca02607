package org.gerdy.engine.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Decides from pain during and after a session what comes next. It can be reached only with a plan's clearance, so a
 * patient whom the plan bars from running never gets here.
 */
public final class PainMonitoring {
    private final List<Band> bands;

    /**
     * A band of pain, from above {@code above} up to and including {@code upTo}.
     *
     * @param name as shown
     * @param above lower end, 0 to 10, not in the band; below 0 takes in 0
     * @param upTo upper end, 0 to 10, in the band
     * @param loading what it says
     */
    public record Band(String name, double above, double upTo, Loading loading) {}

    /**
     * The scheme of these bands.
     *
     * @param clearance proof that a plan allows it
     * @throws IllegalArgumentException when the bands leave a gap, overlap or do not cover 0 to 10
     */
    public PainMonitoring(List<Band> bands, Plan.Clearance clearance) {
        if (!clearance.opens().equals(ReturnSchedule.OPENED_BY)) {
            throw new IllegalArgumentException("The clearance is for " + clearance.opens() + ", not for this.");
        }
        this.bands = ordered(bands);
    }

    private static List<Band> ordered(List<Band> bands) {
        List<Band> sorted = new ArrayList<>(bands);
        sorted.sort(Comparator.comparingDouble(Band::above));
        double reached = -1;
        for (Band band : sorted) {
            boolean joins = reached < 0 ? band.above() < 0 : band.above() == reached;
            if (!joins || band.upTo() <= band.above()) {
                throw new IllegalArgumentException("The bands of pain leave a gap or overlap at " + band.name() + ".");
            }
            reached = band.upTo();
        }
        if (reached != 10) {
            throw new IllegalArgumentException("The bands of pain should reach 10.");
        }
        return List.copyOf(sorted);
    }

    /**
     * What a session says about the next. Pain not recorded, or a next morning, swelling or stiffness not asked about,
     * never lets it progress.
     *
     * @param run the session
     * @param earlier sessions before it, from which a rise from week to week is read when nobody was asked
     */
    public Loading judge(LoggedRun run, List<LoggedRun> earlier) {
        Loading result = run.pain().isPresent() ? band(run.pain().getAsDouble()).loading() : Loading.HOLD;
        result = result.orMoreCareful(
                switch (run.settledByMorning()) {
                    case TRUE -> Loading.PROGRESS;
                    case FALSE -> Loading.BACK;
                    case UNKNOWN -> Loading.HOLD;
                });
        result = result.orMoreCareful(
                switch (run.swollenOrStiff()) {
                    case FALSE -> Loading.PROGRESS;
                    case TRUE, UNKNOWN -> Loading.HOLD;
                });
        return result.orMoreCareful(
                switch (run.risingWeekToWeek()) {
                    case TRUE -> Loading.BACK;
                    case FALSE -> Loading.PROGRESS;
                    case UNKNOWN -> roseSinceLastWeek(run, earlier) ? Loading.HOLD : Loading.PROGRESS;
                });
    }

    /** The band a pain score falls in; {@code pain} 0 to 10. */
    public Band band(double pain) {
        return bands.stream()
                .filter(band -> pain > band.above() && pain <= band.upTo())
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("Pain should be 0 to 10, not " + pain + "."));
    }

    private static boolean roseSinceLastWeek(LoggedRun run, List<LoggedRun> earlier) {
        double before = worst(run, earlier, 13, 7);
        double now = Math.max(worst(run, earlier, 6, 0), run.pain().orElse(-1));
        return before >= 0 && now > before;
    }

    private static double worst(LoggedRun run, List<LoggedRun> earlier, int from, int to) {
        return earlier.stream()
                .filter(other -> !other.date().isBefore(run.date().minusDays(from))
                        && !other.date().isAfter(run.date().minusDays(to)))
                .mapToDouble(other -> other.pain().orElse(-1))
                .max()
                .orElse(-1);
    }
}
