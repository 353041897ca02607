package org.gerdy.engine.drill;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * What the rules make of a set of answers: the standard somebody's work is held to.
 *
 * @param assessment flags, urgency and candidates
 * @param factors every factor's verdict
 * @param plan the plan or the interim advice
 */
public record ModelAnswer(Assessment assessment, List<FactorResult> factors, Plan plan) {

    /** The urgency needed; while nothing is raised and something is open, the highest it could still become. */
    public Urgency urgency() {
        return assessment.urgency().or(assessment::couldBecome).orElse(Urgency.MANAGE_HERE);
    }

    /** The factors that are there, at least borderline. */
    public List<String> present() {
        return factors.stream()
                .filter(factor -> factor.verdict().compareTo(FactorVerdict.BORDERLINE) >= 0)
                .map(FactorResult::id)
                .toList();
    }

    /** The plan, unless only interim advice may be given. */
    public Optional<Plan.Active> active() {
        return plan instanceof Plan.Active active ? Optional.of(active) : Optional.empty();
    }

    /** The items given. */
    public List<String> items() {
        return active().map(plan ->
                        plan.items().stream().map(chosen -> chosen.item().id()).toList())
                .orElse(List.of());
    }

    /** The items that a contraindication, a flag or a candidate forbids. */
    public Set<String> forbidden() {
        return active().map(plan -> plan.heldBack().stream()
                        .filter(held -> Set.of(Plan.Reason.CONTRAINDICATED, Plan.Reason.RED_FLAG, Plan.Reason.CANDIDATE)
                                .contains(held.reason()))
                        .map(held -> held.item().id())
                        .collect(java.util.stream.Collectors.toSet()))
                .orElse(Set.of());
    }
}
