package org.gerdy.engine.load;

import java.util.List;

/**
 * The numbers training load is reckoned with; all come from the knowledge base.
 *
 * @param acuteDays days of the recent window
 * @param chronicDays days of the usual window, the recent ones included
 * @param referenceDays days before a session in which the longest earlier one is looked for
 * @param referenceKnownDays of those, how many must be known
 * @param spikeBands upper edges of the bands of a session's increase, in whole percent, rising
 * @param steadyDays days of unbroken record after which an exponential average no longer leans on its first value
 * @param highestMonotony above this a week counts as very even and no number is shown
 * @param sameStartSeconds two records of one run start within this of each other
 * @param sameDistancePercent and differ in distance by no more than this
 * @param joinMinutes two records with a shorter stop between them are one session
 * @param fastest metres a second nobody keeps up; points that imply more are dropped
 * @param pauseSpeed metres a second below which somebody stands
 * @param pauseSeconds how long to stand before it is a pause
 * @param longStopSeconds a pause from this length on does not count as time of the session
 * @param climbStep metres a smoothed height must turn by before it counts as climb or descent
 * @param deviceGapPercent difference between a device's own distance and that of its positions worth a word
 * @param strideRateBelow a rate below this while running is of one side
 */
public record LoadSettings(
        int acuteDays,
        int chronicDays,
        int referenceDays,
        int referenceKnownDays,
        List<Integer> spikeBands,
        int steadyDays,
        double highestMonotony,
        int sameStartSeconds,
        double sameDistancePercent,
        int joinMinutes,
        double fastest,
        double pauseSpeed,
        int pauseSeconds,
        int longStopSeconds,
        double climbStep,
        double deviceGapPercent,
        double strideRateBelow) {
    /** Throws {@link IllegalArgumentException} when windows or bands cannot be. */
    public LoadSettings {
        spikeBands = List.copyOf(spikeBands);
        if (acuteDays < 2 || chronicDays <= acuteDays || referenceDays < 1 || referenceKnownDays > referenceDays) {
            throw new IllegalArgumentException("The load windows do not nest; correct the settings.");
        }
        for (int i = 1; i < spikeBands.size(); i++) {
            if (spikeBands.get(i) <= spikeBands.get(i - 1)) {
                throw new IllegalArgumentException("The spike bands must rise; correct the settings.");
            }
        }
        if (spikeBands.size() != Spike.BANDS) {
            throw new IllegalArgumentException("There must be " + Spike.BANDS + " spike bands.");
        }
    }
}
