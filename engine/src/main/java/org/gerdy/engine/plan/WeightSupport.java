package org.gerdy.engine.plan;

/**
 * How much of the body's weight a device carries. The same setting is named in two ways that add to 100: the percent
 * taken off and the percent still carried by the body. A plain number never says which, so this type has no plain
 * number to go in or out without its name.
 */
public final class WeightSupport {
    private final double percentOfWeight;

    private WeightSupport(double percentOfWeight) {
        this.percentOfWeight = percentOfWeight;
    }

    /**
     * The setting at which the body still carries this much of its weight.
     *
     * @param percent percent of body weight carried, 0 to 100
     * @throws IllegalArgumentException outside 0 to 100
     */
    public static WeightSupport carrying(double percent) {
        return new WeightSupport(checked(percent));
    }

    /**
     * The setting at which the device takes this much off.
     *
     * @param percent percent of body weight taken off, 0 to 100
     * @throws IllegalArgumentException outside 0 to 100
     */
    public static WeightSupport takingOff(double percent) {
        return new WeightSupport(100 - checked(percent));
    }

    private static double checked(double percent) {
        if (!(percent >= 0 && percent <= 100)) {
            throw new IllegalArgumentException(percent + " % is not a share of body weight; give 0 to 100.");
        }
        return percent;
    }

    /** Percent of body weight still carried, 0 to 100. */
    public double percentOfWeight() {
        return percentOfWeight;
    }

    /** Percent of body weight taken off, 0 to 100. */
    public double percentTakenOff() {
        return 100 - percentOfWeight;
    }

    /** Whether more is taken off than at the other setting. */
    public boolean takesOffMoreThan(WeightSupport other) {
        return percentOfWeight < other.percentOfWeight;
    }

    /** Both readings, so that neither can be taken for the other. */
    public String words() {
        return plain(percentTakenOff()) + " % of body weight taken off, " + plain(percentOfWeight) + " % still carried";
    }

    private static String plain(double number) {
        return number == Math.rint(number)
                ? Long.toString((long) number)
                : Double.toString(Math.round(number * 100) / 100.0);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof WeightSupport support && support.percentOfWeight == percentOfWeight;
    }

    @Override
    public int hashCode() {
        return Double.hashCode(percentOfWeight);
    }

    @Override
    public String toString() {
        return words();
    }
}
