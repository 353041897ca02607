package org.gerdy.engine.care;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.plan.InterimAdvice;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.plan.ScheduleTables;
import org.gerdy.engine.review.ReviewTables;

/**
 * The tables that follow triage. A wrong id in any of them stops the load.
 *
 * @param plan what a plan can hold
 * @param schedules what dated programmes are made from
 * @param review what scores are held against
 * @param roles ids by the part they play, such as the finding that holds the patient's own step rate
 */
public record CareTables(
        PlanTables plan, ScheduleTables schedules, ReviewTables review, Map<String, List<String>> roles) {
    /** Role of the finding that holds the share of the planned work done, percent. */
    public static final String ADHERENCE = "adherence";
    /** Role of the finding a step-rate target is set against. */
    public static final String USUAL_STEP_RATE = "usual-step-rate";
    /** Role of the plan item that sets a step-rate target. */
    public static final String STEP_RATE_ITEM = "step-rate-item";
    /** Role of the findings that say where it hurts. */
    public static final String SITE = "site";
    /** Role of the interim advice that says when to come back at once. */
    public static final String COME_BACK = "come-back";

    /** Reads the tables. Throws {@link KnowledgeException} naming file and line of any fault. */
    public static CareTables load(KnowledgeBase knowledge) {
        Set<String> conditions = knowledge.conditions().keySet();
        PlanTables plan = PlanTables.load(
                knowledge.files(),
                knowledge.catalogue(),
                new PlanTables.Ids(knowledge.rowsByFlag().keySet(), conditions));
        Set<String> known = plan.items().stream().map(PlanItem::id).collect(Collectors.toSet());
        plan.interim().stream().map(InterimAdvice::id).forEach(known::add);
        Map<String, List<String>> roles = knowledge
                .files()
                .table("care-roles.csv", "role", "id")
                .map(row -> {
                    String id = row.required("id");
                    if (!known.contains(id) && !knowledge.catalogue().knows(id)) {
                        throw row.wrong("'" + id + "' is no finding, no plan item and no interim advice.");
                    }
                    return Map.entry(row.required("role"), id);
                })
                .stream()
                .collect(Collectors.groupingBy(
                        Map.Entry::getKey, Collectors.mapping(Map.Entry::getValue, Collectors.toUnmodifiableList())));
        return new CareTables(
                plan,
                ScheduleTables.load(knowledge.files()),
                ReviewTables.load(knowledge.files(), knowledge.catalogue(), conditions),
                roles);
    }

    /** The ids that play this part. */
    public List<String> role(String role) {
        return roles.getOrDefault(role, List.of());
    }

    /** The advice on when to come back at once. Throws {@link KnowledgeException} when the tables name none. */
    public InterimAdvice comeBack() {
        return plan.interim().stream()
                .filter(row -> role(COME_BACK).contains(row.id()))
                .findFirst()
                .orElseThrow(() -> new KnowledgeException(
                        "care-roles.csv names no advice on when to come back; give it the role " + COME_BACK + "."));
    }
}
