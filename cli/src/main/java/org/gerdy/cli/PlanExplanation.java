package org.gerdy.cli;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;

/** Why an item is in a plan, or held back from it. */
final class PlanExplanation {
    private final KnowledgeBase knowledge;
    private final Aftercare care;

    PlanExplanation(KnowledgeBase knowledge, Aftercare care) {
        this.knowledge = knowledge;
        this.care = care;
    }

    /** The reasons for a plan item; empty when no rule chose one of this id. */
    Optional<String> of(String id) {
        return care.active().flatMap(active -> active.items().stream()
                .filter(chosen -> chosen.item().id().equals(id))
                .findFirst()
                .map(chosen -> page(chosen.item(), "given", List.of()))
                .or(() -> active.heldBack().stream()
                        .filter(held -> held.item().id().equals(id))
                        .findFirst()
                        .map(held -> page(held.item(), "held back, " + word(held.reason()), held.about()))));
    }

    private static String word(Plan.Reason reason) {
        return reason.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private String page(PlanItem item, String state, List<String> about) {
        Page page = new Page().heading("Plan item " + item.id() + ": " + state);
        page.hanging("", item.label() + ". " + item.dose().text());
        if (!about.isEmpty()) {
            page.hanging("Held back by: ", 2, String.join(", ", about));
        }
        Set<String> keys = new LinkedHashSet<>(item.evidence().sources());
        care.stageReasons().forEach(reason -> reason(page, "Stage, rule ", reason, keys));
        care.reasons().getOrDefault(item.id(), List.of()).forEach(reason -> reason(page, "Rule ", reason, keys));
        page.hanging("Row: ", 2, "plan-items.csv, " + item.id());
        page.hanging(
                "Evidence: ",
                2,
                item.evidence().strength() + " (" + item.evidence().basis().word() + "). "
                        + item.evidence().text());
        for (String key : keys) {
            Optional.ofNullable(knowledge.bibliography().get(key))
                    .ifPresent(source -> page.hanging("  " + key + ": ", 4, source.citation()));
        }
        return page.toString();
    }

    private static void reason(Page page, String first, Reason reason, Set<String> keys) {
        keys.addAll(reason.sources());
        page.hanging(
                first + reason.rule() + ": ",
                2,
                reason.because() + " (" + reason.basis().word() + ").");
        reason.findings().forEach(read -> page.hanging("  - ", read.id() + ": " + read.value()));
    }
}
