package org.gerdy.engine.assessment;

import java.util.List;
import java.util.Optional;

/**
 * A published score for this patient.
 *
 * @param id the score
 * @param label as shown
 * @param applicable false outside its population; then there is no band
 * @param low smallest total over what is unanswered
 * @param high largest total over what is unanswered
 * @param band the band both ends fall in
 * @param unanswered findings still open
 * @param sources bibliography keys
 */
public record ScoreResult(
        String id,
        String label,
        boolean applicable,
        double low,
        double high,
        Optional<String> band,
        List<String> unanswered,
        List<String> sources) {

    /** Outside its population {@code not-applicable}, else the total or its range and the band: {@code 2 likely}, {@code 0..3}. */
    public String said() {
        if (!applicable) {
            return "not-applicable";
        }
        String total = number(low) + (low == high ? "" : ".." + number(high));
        return total + band.map(name -> " " + name).orElse("");
    }

    private static String number(double points) {
        return points == Math.rint(points) ? Long.toString((long) points) : Double.toString(points);
    }
}
