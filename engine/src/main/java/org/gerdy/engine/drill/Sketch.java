package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/**
 * A patient being made. Signs are added one at a time, each with what it implies and what must hold for it to be asked at
 * all; a sign that clashes with what is there is left out. What was added is never changed again.
 */
final class Sketch {
    private final KnowledgeBase knowledge;
    private final DrillTables tables;
    private final ClashFinder clashes;
    private final Random random;
    private final OrdinaryAnswers answers;
    private Observations now;
    private Set<String> fixed = new LinkedHashSet<>();

    /**
     * @param compared findings whose number is taken on both legs
     */
    Sketch(KnowledgeBase knowledge, DrillTables tables, Set<String> compared, Random random, Observations start) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.clashes = new ClashFinder(knowledge.terms());
        this.random = random;
        this.answers = new OrdinaryAnswers(tables, compared, random, start.side());
        this.now = start;
        this.fixed.addAll(start.recorded().keySet());
    }

    Observations now() {
        return now;
    }

    /** Makes this hold; false, with nothing changed, when it cannot. */
    boolean add(Expression wanted) {
        Observations before = now;
        Set<String> fixedBefore = new LinkedHashSet<>(fixed);
        boolean made = make(wanted, true, 0)
                && wanted.in(now) == Truth.TRUE
                && clashes.clashes(now).isEmpty()
                && gatesOpen();
        if (!made) {
            now = before;
            fixed = fixedBefore;
        }
        return made;
    }

    /** Takes back to an earlier state; for a sign that turned out unwanted. */
    Runnable mark() {
        Observations before = now;
        Set<String> fixedBefore = new LinkedHashSet<>(fixed);
        return () -> {
            now = before;
            fixed = fixedBefore;
        };
    }

    private boolean gatesOpen() {
        for (String id : now.recorded().keySet()) {
            Optional<Expression> gate = definition(id).onlyIf();
            if (gate.isPresent() && gate.get().in(now) == Truth.FALSE) {
                return false;
            }
        }
        return true;
    }

    private boolean make(Expression expression, boolean wanted, int depth) {
        if (expression.in(now) == Truth.of(wanted)) {
            expression.atoms(atom -> {
                if (now.recorded(atom.finding()).isPresent()) {
                    fixed.add(atom.finding());
                }
            });
            return true;
        }
        if (depth > 12) {
            return false;
        }
        if (expression instanceof Expression.Is is) {
            return is(is, wanted, depth);
        }
        if (expression instanceof Expression.Compare compare) {
            return compare(compare, wanted, depth);
        }
        if (expression instanceof Expression.CompareSides compare) {
            return sides(compare, wanted, depth);
        }
        if (expression instanceof Expression.Not not) {
            return make(not.part(), !wanted, depth + 1);
        }
        if (expression instanceof Expression.Recorded recorded) {
            return make(recorded.part(), wanted, depth + 1);
        }
        if (expression instanceof Expression.And and) {
            return wanted ? all(and.parts(), true, depth) : some(1, and.parts(), false, depth);
        }
        if (expression instanceof Expression.Or or) {
            return wanted ? some(1, or.parts(), true, depth) : all(or.parts(), false, depth);
        }
        if (expression instanceof Expression.AtLeast least) {
            return wanted
                    ? some(least.needed(), least.parts(), true, depth)
                    : some(least.parts().size() - least.needed() + 1, least.parts(), false, depth);
        }
        return false;
    }

    private boolean all(List<Expression> parts, boolean wanted, int depth) {
        for (Expression part : parts) {
            if (!make(part, wanted, depth + 1)) {
                return false;
            }
        }
        return true;
    }

    /** Makes this many parts so, in an order drawn, each kept only if it can be. */
    private boolean some(int needed, List<Expression> parts, boolean wanted, int depth) {
        List<Expression> order = new ArrayList<>(parts);
        Collections.shuffle(order, random);
        int made = 0;
        for (Expression part : order) {
            made += part.in(now) == Truth.of(wanted) ? 1 : 0;
        }
        for (Expression part : order) {
            if (made >= needed) {
                break;
            }
            if (part.in(now) != Truth.of(wanted)) {
                Runnable back = mark();
                if (make(part, wanted, depth + 1) && clashes.clashes(now).isEmpty()) {
                    made++;
                } else {
                    back.run();
                }
            }
        }
        return made >= needed;
    }

    private boolean is(Expression.Is is, boolean wanted, int depth) {
        var computed = knowledge.catalogue().computed(is.finding());
        if (computed.isPresent()) {
            return make(computed.get().means(), is.value().equals("absent") != wanted, depth + 1);
        }
        FindingDefinition finding = definition(is.finding());
        if (finding.kind() == Kind.YES_NO) {
            boolean present = is.value().equals("present") == wanted;
            return set(finding, present ? Answer.State.PRESENT : Answer.State.ABSENT, depth);
        }
        if (wanted) {
            return set(finding, new Answer.Choice(is.value()), depth);
        }
        Optional<String> normal = tables.normal(finding).map(DrillTables.Normal::answer);
        String other = normal.filter(one -> !one.equals(is.value())).orElseGet(() -> finding.choices().stream()
                .filter(one -> !one.equals(is.value()))
                .findFirst()
                .orElse(is.value()));
        return set(finding, new Answer.Choice(other), depth);
    }

    private boolean compare(Expression.Compare compare, boolean wanted, int depth) {
        FindingDefinition finding = definition(compare.finding());
        double step = tables.normal(finding).map(DrillTables.Normal::step).orElse(1.0);
        double value = beside(compare.comparison(), compare.cutOff(), wanted, step);
        double low = finding.min().orElse(value);
        double high = finding.max().orElse(value);
        return set(finding, OrdinaryAnswers.quantity(Math.max(low, Math.min(high, value)), finding), depth);
    }

    private static double beside(Comparison comparison, double cutOff, boolean wanted, double step) {
        return switch (comparison) {
            case AT_LEAST, ABOVE -> wanted ? cutOff + step : cutOff - step;
            case AT_MOST, BELOW -> wanted ? cutOff - step : cutOff + step;
            case EQUAL -> wanted ? cutOff : cutOff + step;
        };
    }

    private boolean sides(Expression.CompareSides compare, boolean wanted, int depth) {
        FindingDefinition finding = definition(compare.finding());
        if (fixed.contains(finding.id())) {
            return false;
        }
        Optional<DrillTables.Normal> normal = tables.normal(finding);
        if (normal.isEmpty()) {
            return false;
        }
        double other = normal.get().low().orElse(0);
        double difference = beside(
                compare.comparison(), compare.cutOff(), wanted, normal.get().step());
        return put(
                finding,
                answers.both(
                        OrdinaryAnswers.quantity(other + difference, finding),
                        OrdinaryAnswers.quantity(other, finding)),
                depth);
    }

    private boolean set(FindingDefinition finding, Answer answer, int depth) {
        return !fixed.contains(finding.id()) && put(finding, answers.recorded(finding, answer), depth);
    }

    private boolean put(FindingDefinition finding, Recorded answer, int depth) {
        if (finding.onlyIf().isPresent() && !make(finding.onlyIf().get(), true, depth + 1)) {
            return false;
        }
        now = now.with(finding.id(), answer);
        fixed.add(finding.id());
        for (FindingDefinition.Relation relation : finding.implies()) {
            if (now.is(finding.id(), relation.when()) == Truth.TRUE
                    && !make(new Expression.Is(relation.other(), relation.value()), true, depth + 1)) {
                return false;
            }
        }
        return true;
    }

    /** Answers every question that can be asked and has no answer yet in the ordinary way. */
    void fill() {
        boolean changed = true;
        for (int pass = 0; changed && pass < 8; pass++) {
            changed = false;
            for (FindingDefinition finding : knowledge.catalogue().findings()) {
                if (now.recorded(finding.id()).isEmpty()
                        && finding.onlyIf()
                                .map(gate -> gate.in(now) == Truth.TRUE)
                                .orElse(true)) {
                    Optional<Recorded> ordinary = answers.ordinary(finding);
                    if (ordinary.isPresent()) {
                        now = now.with(finding.id(), ordinary.get());
                        changed = true;
                    }
                }
            }
        }
        mend();
    }

    /** Ordinary answers that clash with a sign, or whose gate a later answer shut, are turned round or left out. */
    private void mend() {
        for (int round = 0; round < 40; round++) {
            List<ClashFinder.Found> found = clashes.clashes(now);
            Optional<String> wrong = found.stream()
                    .flatMap(clash -> clash.findings().stream())
                    .filter(id -> !fixed.contains(id))
                    .findFirst()
                    .or(this::shut);
            if (wrong.isEmpty()) {
                return;
            }
            String id = wrong.get();
            fixed.add(id);
            Observations without = now.without(id);
            Observations turned = now.with(id, turned(id));
            boolean better = definition(id).kind() == Kind.YES_NO
                    && clashes.clashes(turned).size() < found.size()
                    && found.stream().anyMatch(clash -> clash.findings().contains(id));
            now = better ? turned : without;
        }
    }

    private Recorded turned(String id) {
        boolean present = now.is(id, "present") == Truth.TRUE;
        return answers.recorded(definition(id), present ? Answer.State.ABSENT : Answer.State.PRESENT);
    }

    private Optional<String> shut() {
        return now.recorded().keySet().stream()
                .filter(id -> !fixed.contains(id))
                .filter(id -> definition(id)
                        .onlyIf()
                        .map(gate -> gate.in(now) == Truth.FALSE)
                        .orElse(false))
                .findFirst();
    }

    private FindingDefinition definition(String id) {
        return knowledge.catalogue().finding(id).orElseThrow();
    }
}
