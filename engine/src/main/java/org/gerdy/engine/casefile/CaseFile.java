package org.gerdy.engine.casefile;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * One case: facts about the person and dated visits. Holds what was recorded, nothing computed.
 *
 * @param id an invented id, never a name
 * @param title one sentence, may be empty
 * @param source where a published case was reported, may be empty
 * @param patient findings about the person, true at every visit
 * @param visits in the order of their dates
 * @param expect what an audit holds this case to
 */
public record CaseFile(
        String id,
        String title,
        String source,
        Map<String, Recorded> patient,
        List<Visit> visits,
        Optional<Expectation> expect) {

    /** The visit with the latest date. */
    public Visit latest() {
        return visits.get(visits.size() - 1);
    }

    /** The visit on this day. */
    public Optional<Visit> on(java.time.LocalDate date) {
        return visits.stream().filter(visit -> visit.date().equals(date)).findFirst();
    }

    /** What the clinician decided, and why where it differs from what was advised. */
    public record Decision(Urgency urgency, String reason) {}

    /**
     * What an audit holds a case to. Empty lists ask nothing.
     *
     * @param urgency the exact level
     * @param atLeast the lowest acceptable level
     * @param raised flags that must be raised
     * @param notRaised flags that must not be
     * @param rowsRaised rows of flags that must be raised
     * @param rowsNotRaised rows that must not be
     * @param cleared flags that must be cleared
     * @param open flags that must be open
     * @param leading the condition that must lead
     * @param within a condition and the rank it must reach
     * @param never urgencies that must not be the result
     * @param detail what is asked of single rows and weights
     */
    public record Expectation(
            Optional<Urgency> urgency,
            Optional<Urgency> atLeast,
            List<String> raised,
            List<String> notRaised,
            List<String> rowsRaised,
            List<String> rowsNotRaised,
            List<String> cleared,
            List<String> open,
            Optional<String> leading,
            Map<String, Integer> within,
            List<Urgency> never,
            Detail detail) {}

    /**
     * What a case asks of single rows and weights, beside the result as a whole.
     *
     * @param rowsOpen rows of flags that must be open
     * @param rowsCleared rows that must be neither raised nor open
     * @param rowUrgency rows that must be raised at this level
     * @param population the population whose priors must be used
     * @param referrals referral thresholds that must be met
     * @param notReferrals thresholds that must not be
     * @param weights what must and must not weigh in the differential
     * @param scores what these scores must say, as {@link org.gerdy.engine.assessment.ScoreResult#said} words it; {@code
     *     none} where there must be no reason to run it
     * @param decisionRules how these decision rules must come out
     * @param care what must be judged of factors and stand in the plan
     */
    public record Detail(
            List<String> rowsOpen,
            List<String> rowsCleared,
            Map<String, Urgency> rowUrgency,
            Optional<String> population,
            List<String> referrals,
            List<String> notReferrals,
            Weights weights,
            Map<String, String> scores,
            Map<String, String> decisionRules,
            Care care) {
        /** Asks nothing. */
        public static final Detail NOTHING = new Detail(
                List.of(),
                List.of(),
                Map.of(),
                Optional.empty(),
                List.of(),
                List.of(),
                Weights.NOTHING,
                Map.of(),
                Map.of(),
                Care.NOTHING);

        /** Whether nothing is asked of single rows, weights, factors and plan. */
        public boolean isEmpty() {
            return equals(NOTHING);
        }
    }

    /**
     * What a case asks of the differential.
     *
     * @param speaksFor by condition, findings that must speak for it
     * @param speaksAgainst by condition, findings that must speak against it
     * @param notSpeaksFor by condition, findings that must not speak for it
     * @param notSpeaksAgainst by condition, findings that must not speak against it
     * @param notUnlikely conditions that must not stand among the unlikely ones
     */
    public record Weights(
            Map<String, List<String>> speaksFor,
            Map<String, List<String>> speaksAgainst,
            Map<String, List<String>> notSpeaksFor,
            Map<String, List<String>> notSpeaksAgainst,
            List<String> notUnlikely) {
        /** Nothing asked. */
        public static final Weights NOTHING = new Weights(Map.of(), Map.of(), Map.of(), Map.of(), List.of());
    }

    /**
     * What a case asks of contributing factors and of the plan.
     *
     * @param factors the verdict each of these factors must get
     * @param plan plan items that must be given; interim advice gives none
     * @param notPlan plan items that must not be given
     */
    public record Care(Map<String, FactorVerdict> factors, List<String> plan, List<String> notPlan) {
        /** Asks nothing. */
        public static final Care NOTHING = new Care(Map.of(), List.of(), List.of());
    }
}
