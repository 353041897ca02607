package org.gerdy.engine.review;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.plan.ClinicianDecision;

/**
 * What a review comes to.
 *
 * @param date the day of the review
 * @param weeks weeks since the first visit
 * @param redFlags whether the red flags were asked again, and what came of it
 * @param changes each score against its first value, in table order
 * @param response all scores together
 * @param stalled instruments with two reviews of little change
 * @param patientView the patient's own rating of the change, shown beside the scores
 * @param viewDiffers whether that rating and the scores point different ways
 * @param due thresholds reached, and those that more answers would settle
 * @param expected what other groups of patients did; rows make no curve
 * @param next the next look that is due, if the table has one
 * @param clinician the clinician's own decision, kept as written
 */
public record Review(
        LocalDate date,
        double weeks,
        RedFlags redFlags,
        List<Change> changes,
        Response response,
        List<String> stalled,
        OptionalDouble patientView,
        boolean viewDiffers,
        List<Due> due,
        List<CourseRow.Expected> expected,
        Optional<CourseRow.Visit> next,
        Optional<ClinicianDecision> clinician) {

    /**
     * The danger screen of today.
     *
     * @param complete whether every red flag was settled again today
     * @param raised the flags raised today
     */
    public record RedFlags(boolean complete, List<String> raised) {}

    /**
     * A threshold of the course table.
     *
     * @param row the row
     * @param certain whether it is reached; otherwise {@code ask} would settle it
     * @param ask what to find out first
     */
    public record Due(CourseRow.Escalation row, boolean certain, List<String> ask) {}

    /** Whether the change may be read as it stands: only once the red flags were asked again. */
    public boolean conclusive() {
        return redFlags.complete();
    }

    /** The same review with the clinician's decision beside it; nothing worked out is changed. */
    public Review with(ClinicianDecision decision) {
        return new Review(
                date,
                weeks,
                redFlags,
                changes,
                response,
                stalled,
                patientView,
                viewDiffers,
                due,
                expected,
                next,
                Optional.of(decision));
    }
}
