package org.gerdy.engine.care;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.PlanEntry;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.plan.SupportedSchedule;
import org.gerdy.engine.review.Review;
import org.gerdy.engine.review.ScoreVisit;

/**
 * What follows triage at one visit.
 *
 * @param plan the plan, or advice until somebody else has seen the patient
 * @param stageReasons why the plan is for its stage
 * @param reasons why each item was chosen, given and held back alike, by item id
 * @param ask findings whose answer could free an item that is held back
 * @param returning the dated way back to running
 * @param supported dated sessions with part of the weight taken off
 * @param undated what keeps a programme from being dated, one sentence each
 * @param stepRateTarget step rate to aim for on the ground, steps a minute
 * @param next the next look
 * @param scores the totals recorded at each visit so far, on one side
 * @param review the scores over the visits so far, from the second visit on
 */
public record Aftercare(
        Plan plan,
        List<Reason> stageReasons,
        Map<String, List<Reason>> reasons,
        List<String> ask,
        Optional<Returning> returning,
        Optional<Supported> supported,
        List<String> undated,
        OptionalLong stepRateTarget,
        NextLook next,
        List<ScoreVisit> scores,
        Optional<Review> review) {

    /** The way back to running, with the frame it was dated from. */
    public record Returning(PlanEntry.Programme programme, ReturnSchedule.Schedule schedule) {}

    /** Running with part of the weight taken off, with the frame it was dated from. */
    public record Supported(PlanEntry.Programme programme, List<SupportedSchedule.Session> sessions) {}

    /**
     * The next look.
     *
     * @param date the day, if the course table has one
     * @param what what to look at
     * @param watch when to come sooner, and when to stop
     */
    public record NextLook(Optional<LocalDate> date, String what, List<String> watch) {}

    /** The plan with items, if it is one. */
    public Optional<Plan.Active> active() {
        return plan instanceof Plan.Active active ? Optional.of(active) : Optional.empty();
    }

    /** The interim advice, if there is nothing else. */
    public Optional<Plan.Interim> interim() {
        return plan instanceof Plan.Interim interim ? Optional.of(interim) : Optional.empty();
    }
}
