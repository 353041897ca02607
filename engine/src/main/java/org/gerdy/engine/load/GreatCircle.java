package org.gerdy.engine.load;

/** Distance on a sphere by the haversine formula (Sinnott 1984). */
public final class GreatCircle {
    /** Mean radius R1 of the WGS 84 ellipsoid, in metres. */
    public static final double MEAN_RADIUS = 6_371_008.8;

    private GreatCircle() {}

    /** Metres between two positions in decimal degrees. */
    public static double metres(double latitude1, double longitude1, double latitude2, double longitude2) {
        return metres(latitude1, longitude1, latitude2, longitude2, MEAN_RADIUS);
    }

    /** The same on a sphere of another radius, in the radius's unit. */
    public static double metres(
            double latitude1, double longitude1, double latitude2, double longitude2, double radius) {
        double north = Math.sin(Math.toRadians(latitude2 - latitude1) / 2);
        double east = Math.sin(Math.toRadians(longitude2 - longitude1) / 2);
        double h =
                north * north + Math.cos(Math.toRadians(latitude1)) * Math.cos(Math.toRadians(latitude2)) * east * east;
        return 2 * radius * Math.asin(Math.sqrt(Math.min(1, h)));
    }
}
