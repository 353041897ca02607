package org.gerdy.engine.measure;

/** Small geometry behind measures that are read with a tape or ruler. */
public final class Geometry {
    private Geometry() {}

    /**
     * The angle to the horizontal, in degrees, of a segment whose ends differ in height; above horizontal is plus.
     * Method: trigonometric table-edge test (trigthomas2015).
     *
     * @param rise height of the far end minus height of the near end
     * @param length length of the segment, same unit, above 0
     */
    public static double inclination(double rise, double length) {
        if (!(length > 0) || Math.abs(rise) > length) {
            throw new IllegalArgumentException("A rise of " + rise + " over a length of " + length
                    + " is no triangle; measure both again in the same unit.");
        }
        return Math.toDegrees(Math.asin(rise / length));
    }

    /** One length over another, both above 0 and in the same unit. */
    public static double ratio(double length, double base) {
        if (!(base > 0) || !(length > 0)) {
            throw new IllegalArgumentException("A ratio needs two lengths above zero; measure both again.");
        }
        return length / base;
    }

    /** Body mass over squared height, in kg/m2 (Quetelet 1832). */
    public static double bodyMassIndex(double kilograms, double metres) {
        if (!(kilograms > 0) || !(metres > 0)) {
            throw new IllegalArgumentException("Body mass and height must be above zero.");
        }
        return kilograms / (metres * metres);
    }
}
