package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.drill.DrillScore.Kind;
import org.gerdy.engine.drill.DrillScore.Line;
import org.gerdy.engine.drill.DrillScore.Part;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.vocabulary.Urgency;

/** Marks what is about care: contributing factors, first plan items, what would settle it. */
final class CareMarks {
    private final DrillTables tables;
    private final KnowledgeBase knowledge;

    CareMarks(DrillTables tables, KnowledgeBase knowledge) {
        this.tables = tables;
        this.knowledge = knowledge;
    }

    Optional<Part> factors(Inquiry inquiry, DrillMaster.Walk walk, Commitment stated, ModelAnswer model) {
        if (model.active().isEmpty() || walk.care().isEmpty()) {
            return Optional.empty();
        }
        Set<String> there = new LinkedHashSet<>(model.present());
        Set<String> both = new LinkedHashSet<>(there);
        both.retainAll(stated.factors());
        double agreement = there.isEmpty() && stated.factors().isEmpty()
                ? 1
                : 2.0 * both.size() / (there.size() + stated.factors().size());
        long asked = walk.care().stream().filter(inquiry::asked).count();
        double looked = (double) asked / walk.care().size();
        List<Line> lines = new ArrayList<>();
        lines.add(Line.of(
                "Looked for: " + asked + " of " + walk.care().size() + " questions that bear on factors and plan."));
        for (FactorResult factor : model.factors()) {
            boolean named = stated.factors().contains(factor.id());
            if (there.contains(factor.id()) || named) {
                lines.add(new Line(
                        factor.label() + ": " + factor.verdict().word() + (named ? ", named" : ", not named") + ". "
                                + factor.association(),
                        "factors.csv " + factor.id(),
                        factor.reasons().stream()
                                .flatMap(reason -> reason.sources().stream())
                                .distinct()
                                .limit(3)
                                .toList()));
            }
        }
        double most = number("points-factors");
        return Optional.of(new Part(Kind.FACTORS, most * agreement * looked, most, lines));
    }

    Part plan(Commitment stated, ModelAnswer model) {
        double most = number("points-plan");
        List<Line> lines = new ArrayList<>();
        if (model.plan() instanceof Plan.Interim interim) {
            boolean none = stated.plan().isEmpty();
            boolean handedOn = stated.urgency() != Urgency.MANAGE_HERE;
            lines.add(Line.of("Only interim advice may be given. " + interim.because()));
            interim.advice().stream()
                    .limit(3)
                    .forEach(advice ->
                            lines.add(new Line(advice.text(), "interim-advice.csv " + advice.id(), advice.sources())));
            if (!none) {
                lines.add(Line.of("Plan items named all the same: " + String.join(", ", stated.plan()) + "."));
            }
            return new Part(Kind.PLAN, none && handedOn ? most : 0, most, lines);
        }
        List<String> items = model.items();
        Set<String> right = new LinkedHashSet<>(items);
        right.retainAll(stated.plan());
        Set<String> harmful = new LinkedHashSet<>(model.forbidden());
        harmful.retainAll(stated.plan());
        model.active().orElseThrow().items().stream()
                .limit((int) number("plan-items") + 2L)
                .forEach(chosen -> lines.add(given(chosen, stated)));
        for (Plan.HeldBack held : model.active().orElseThrow().heldBack()) {
            if (harmful.contains(held.item().id())) {
                lines.add(new Line(
                        "Not for this patient: " + held.item().label() + ", because of "
                                + String.join(", ", held.about()) + ".",
                        "plan-items.csv " + held.item().id(),
                        held.item().evidence().sources()));
            }
        }
        double full = Math.min(number("plan-items"), items.size());
        double share = stated.plan().isEmpty()
                ? (items.isEmpty() ? 1 : 0)
                : harmful.isEmpty()
                        ? (full == 0 ? 0 : Math.min(1, right.size() / full))
                                * ((double) right.size() / stated.plan().size())
                        : 0;
        return new Part(Kind.PLAN, most * share, most, lines);
    }

    private static Line given(Plan.Chosen chosen, Commitment stated) {
        PlanItem item = chosen.item();
        return new Line(
                (stated.plan().contains(item.id()) ? "Named: " : "Could be named: ") + item.label() + " (" + item.id()
                        + ").",
                String.join(", ", chosen.rules()) + " / plan-items.csv " + item.id(),
                item.evidence().sources());
    }

    Optional<Part> settle(Inquiry inquiry, Commitment stated, ModelAnswer model) {
        CandidateResult leader = model.assessment().candidates().get(0);
        if (leader.settle().isEmpty()) {
            return Optional.empty();
        }
        long right = stated.settles().stream()
                .filter(named ->
                        leader.settle().contains(named) || (!inquiry.asked(named) && moves(named, leader.condition())))
                .count();
        double share = stated.settles().isEmpty()
                ? 0
                : (double) right / stated.settles().size();
        double most = number("points-settle");
        return Optional.of(new Part(
                Kind.SETTLE,
                most * share,
                most,
                List.of(Line.of("Would move " + leader.name() + " most of what is not known: "
                        + String.join(", ", leader.settle())
                        + ". Any question not asked that weighs enough about it counts."))));
    }

    /** Whether an answer to this question weighs enough about the condition. */
    private boolean moves(String named, String condition) {
        double enough = Math.log(number("settle-ratio"));
        return knowledge.evidence().about(condition).stream()
                .filter(row -> knowledge.catalogue().askedBehind(row.finding()).contains(named))
                .anyMatch(row -> Stream.concat(row.whenPresent().stream(), row.whenAbsent().stream())
                        .anyMatch(ratio -> Math.abs(ratio.log()) >= enough - 1e-9));
    }

    private double number(String name) {
        return tables.settings().value(name);
    }
}
