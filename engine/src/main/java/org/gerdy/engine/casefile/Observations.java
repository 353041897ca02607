package org.gerdy.engine.casefile;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.logic.Answers;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/**
 * What is known at one visit: the person's facts and the visit's findings, sides merged the safe way. A sign on either
 * side counts; only an answer for every painful side clears. Immutable from outside; computed findings are kept once
 * worked out, so one instance belongs to one thread at a time.
 */
public final class Observations implements Answers {
    private final Catalogue catalogue;
    private final Side side;
    private final Map<String, Recorded> recorded;
    private final Map<String, Truth> computed = new HashMap<>();
    private final Map<String, Truth> unasked = new HashMap<>();
    private final Map<String, List<String>> toAsk = new HashMap<>();

    private Observations(Catalogue catalogue, Side side, Map<String, Recorded> recorded) {
        this.catalogue = catalogue;
        this.side = side;
        this.recorded = recorded;
    }

    /** What is known at this visit of the case: what was recorded, and what its measures say as findings. */
    public static Observations of(Terms terms, CaseFile caseFile, Visit visit) {
        return new Observations(terms.catalogue(), visit.side(), terms.known(caseFile, visit));
    }

    /** These answers, for the painful side named. */
    public static Observations of(Catalogue catalogue, Side side, Map<String, Recorded> recorded) {
        return new Observations(catalogue, side, new LinkedHashMap<>(recorded));
    }

    /** The same with one finding answered anew. */
    public Observations with(String finding, Recorded answer) {
        Map<String, Recorded> changed = new LinkedHashMap<>(recorded);
        changed.put(finding, answer);
        return new Observations(catalogue, side, changed);
    }

    /** The same with one finding not asked. */
    public Observations without(String finding) {
        Map<String, Recorded> changed = new LinkedHashMap<>(recorded);
        changed.remove(finding);
        return new Observations(catalogue, side, changed);
    }

    /** The painful side. */
    public Side side() {
        return side;
    }

    /** The words these answers are written in. */
    public Catalogue catalogue() {
        return catalogue;
    }

    /** Everything recorded, by finding id. */
    public Map<String, Recorded> recorded() {
        return Collections.unmodifiableMap(recorded);
    }

    /** What was recorded for this finding. */
    public Optional<Recorded> recorded(String finding) {
        return Optional.ofNullable(recorded.get(finding));
    }

    /** Whether anything was recorded for this finding. */
    public boolean isRecorded(String finding) {
        return recorded.containsKey(finding);
    }

    @Override
    public Truth is(String finding, String stateOrChoice) {
        Recorded answers = recorded.get(finding);
        if (answers == null) {
            return isUnrecorded(finding, stateOrChoice);
        }
        Truth answered = answered(finding, answers, stateOrChoice);
        return answered == Truth.UNKNOWN ? unasked(definition(finding)) : answered;
    }

    /** What the answers alone say, whether or not the question applies. */
    private Truth answered(String finding, Recorded answers, String stateOrChoice) {
        if (answers instanceof Recorded.Whole whole && whole.answer() instanceof Answer.State state) {
            return matches(state, stateOrChoice);
        }
        FindingDefinition definition = definition(finding);
        String danger = definition.isReversed() ? "absent" : "present";
        if (isState(stateOrChoice) && !stateOrChoice.equals(danger) && definition.perSide()) {
            // Healthy means healthy wherever it hurts; one side without the sign does not clear the other.
            return merged(definition, answer -> matches(answer, danger)).not();
        }
        return merged(definition, answer -> matches(answer, stateOrChoice));
    }

    private Truth isUnrecorded(String finding, String stateOrChoice) {
        Truth asked = unasked.get(finding);
        if (asked != null) {
            return asked;
        }
        if (catalogue.computed(finding).isPresent()) {
            Truth truth = computed(finding);
            return stateOrChoice.equals("absent") ? truth.not() : truth;
        }
        return unasked(definition(finding));
    }

    /**
     * What any question about a finding comes to that no answer settles: unknown, or false where it does not apply. An answer
     * for the other leg, or one that could not be had, leaves it as it would be had nobody asked.
     */
    private Truth unasked(FindingDefinition definition) {
        Truth known = unasked.get(definition.id());
        if (known == null) {
            boolean ruledOut = definition
                    .onlyIf()
                    .map(gate -> gate.in(this) == Truth.FALSE)
                    .orElse(false);
            known = ruledOut ? Truth.FALSE : Truth.UNKNOWN;
            unasked.put(definition.id(), known);
        }
        return known;
    }

    @Override
    public Truth compare(String finding, Comparison comparison, double cutOff) {
        FindingDefinition definition = definition(finding);
        Truth answered = merged(
                definition,
                answer -> answer instanceof Answer.Quantity quantity
                        ? Truth.of(comparison.holds(quantity.value(), cutOff))
                        : Truth.UNKNOWN);
        return answered == Truth.UNKNOWN ? unasked(definition) : answered;
    }

    @Override
    public Truth compareTo(String finding, Comparison comparison, double factor, String other) {
        Truth painful = Truth.FALSE;
        for (Side each : side.each()) {
            painful = painful.or(compareOn(each, finding, comparison, factor, other));
        }
        return compareOn(side.other(), finding, comparison, factor, other) == Truth.TRUE ? Truth.TRUE : painful;
    }

    private Truth compareOn(Side on, String finding, Comparison comparison, double factor, String other) {
        Optional<Double> left = number(finding, on);
        Optional<Double> right = number(other, on);
        return left.isEmpty() || right.isEmpty()
                ? Truth.UNKNOWN
                : Truth.of(comparison.holds(left.get(), factor * right.get()));
    }

    private Optional<Double> number(String finding, Side on) {
        return recorded(finding)
                .flatMap(answers -> answers.on(on))
                .flatMap(answer ->
                        answer instanceof Answer.Quantity quantity ? Optional.of(quantity.value()) : Optional.empty());
    }

    private static boolean isState(String word) {
        return word.equals("present") || word.equals("absent");
    }

    @Override
    public Truth compareSides(String finding, Comparison comparison, double cutOff) {
        OptionalDouble difference = sideDifference(finding);
        return difference.isEmpty()
                ? unasked(definition(finding))
                : Truth.of(comparison.holds(difference.getAsDouble(), cutOff));
    }

    /** Painful side minus the other, in the finding's unit; the larger way round when both hurt. Empty until both are known. */
    public OptionalDouble sideDifference(String finding) {
        Recorded answers = recorded.get(finding);
        if (!(answers instanceof Recorded.Sides sides)
                || !(sides.left().orElse(null) instanceof Answer.Quantity left)
                || !(sides.right().orElse(null) instanceof Answer.Quantity right)) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(
                switch (side) {
                    case LEFT -> left.value() - right.value();
                    case RIGHT -> right.value() - left.value();
                    case BOTH -> Math.abs(left.value() - right.value());
                });
    }

    /** Whether it makes sense to ask: recorded answers always count, and an unknown gate leaves it askable. */
    public boolean applies(FindingDefinition definition) {
        return recorded.containsKey(definition.id()) || unasked(definition) != Truth.FALSE;
    }

    /** The truth of a computed finding. */
    public Truth computed(String id) {
        Truth known = computed.get(id);
        if (known == null) {
            ComputedFinding finding = catalogue
                    .computed(id)
                    .orElseThrow(() -> new IllegalArgumentException("There is no computed finding " + id + "."));
            known = finding.means().in(this);
            computed.put(id, known);
        }
        return known;
    }

    /** Whether the finding is settled: answered on every painful side, present on one, or not applicable. */
    public boolean isKnown(String finding) {
        if (catalogue.computed(finding).isPresent()) {
            return computed(finding) != Truth.UNKNOWN;
        }
        FindingDefinition definition = definition(finding);
        if (unasked(definition) == Truth.FALSE) {
            return true;
        }
        if (catalogue.comparedBetweenSides().contains(finding)) {
            return sideDifference(finding).isPresent();
        }
        if (definition.kind() == org.gerdy.engine.vocabulary.Kind.YES_NO) {
            return is(finding, "present") != Truth.UNKNOWN;
        }
        return merged(definition, answer -> Truth.FALSE) == Truth.FALSE;
    }

    /**
     * Whether a yes-or-no finding says something about where it hurts: recorded and settled, and its sign not on the
     * other side alone. Such an answer raises a flag but is no evidence about the painful side.
     */
    public boolean speaksForPainfulSide(String finding) {
        Recorded answers = recorded.get(finding);
        if (answers == null) {
            return false;
        }
        boolean reversed =
                catalogue.finding(finding).map(FindingDefinition::isReversed).orElse(false);
        Answer sign = reversed ? Answer.State.ABSENT : Answer.State.PRESENT;
        return switch (answered(finding, answers, sign.text())) {
            case UNKNOWN -> false;
            case FALSE -> true;
            case TRUE -> side.each().stream().anyMatch(each -> answers.on(each).orElse(Answer.State.UNABLE) == sign);
        };
    }

    /** Whether the finding was tried and could not be done, and nothing else settles it. */
    public boolean isUnable(String finding) {
        return recorded(finding)
                .map(answers -> answersOf(answers).contains(Answer.State.UNABLE)
                        && answered(finding, answers, Answer.State.PRESENT.text()) == Truth.UNKNOWN)
                .orElse(false);
    }

    /** The askable findings still missing before this expression is decided, each with its own gate first. */
    public List<String> missing(Expression expression) {
        return missing(catalogue.askedBehind(expression));
    }

    /** The findings to ask for this one to be settled: its gate if that is unknown, else itself if unknown. */
    public List<String> missing(String finding) {
        return missing(catalogue.askedBehind(finding));
    }

    private List<String> missing(Set<String> asked) {
        Set<String> ids = new LinkedHashSet<>();
        for (String id : asked) {
            ids.addAll(toAsk(id));
        }
        return List.copyOf(ids);
    }

    private List<String> toAsk(String id) {
        List<String> known = toAsk.get(id);
        if (known == null) {
            Optional<Expression> gate =
                    definition(id).onlyIf().filter(open -> !recorded.containsKey(id) && open.in(this) == Truth.UNKNOWN);
            known = isKnown(id) ? List.of() : gate.map(this::missing).orElse(List.of(id));
            toAsk.put(id, known);
        }
        return known;
    }

    /** The value of this finding as recorded, for a reason on screen: {@code present}, {@code 130 degrees left}. */
    public String shown(String finding) {
        if (catalogue.computed(finding).isPresent()) {
            return switch (computed(finding)) {
                case TRUE -> "present";
                case FALSE -> "absent";
                case UNKNOWN -> "not asked";
            };
        }
        Recorded answers = recorded.get(finding);
        if (answers == null) {
            return applies(definition(finding)) ? "not asked" : "not applicable";
        }
        if (answers instanceof Recorded.Sides sides) {
            List<String> parts = new ArrayList<>();
            sides.left().ifPresent(answer -> parts.add(answer.text() + " left"));
            sides.right().ifPresent(answer -> parts.add(answer.text() + " right"));
            return String.join(", ", parts);
        }
        return answers.on(Side.LEFT).map(Answer::text).orElse("not asked");
    }

    /** The distinct choices recorded for a finding, on any side. */
    public List<String> choices(String finding) {
        return recorded(finding)
                .map(answers -> answersOf(answers).stream()
                        .filter(Answer.Choice.class::isInstance)
                        .map(Answer::text)
                        .distinct()
                        .toList())
                .orElse(List.of());
    }

    private FindingDefinition definition(String finding) {
        return catalogue
                .finding(finding)
                .orElseThrow(() -> new IllegalArgumentException("There is no finding " + finding + "."));
    }

    private interface Test {
        Truth of(Answer answer);
    }

    private static Truth matches(Answer answer, String stateOrChoice) {
        return answer == Answer.State.UNABLE
                ? Truth.UNKNOWN
                : Truth.of(answer.text().equals(stateOrChoice));
    }

    /** True on any side; false only when false on every painful side. */
    private Truth merged(FindingDefinition definition, Test test) {
        Recorded answers = recorded.get(definition.id());
        if (answers == null) {
            return Truth.UNKNOWN;
        }
        if (answers instanceof Recorded.Whole whole) {
            return test.of(whole.answer());
        }
        Truth painful = Truth.FALSE;
        for (Side each : side.each()) {
            painful = painful.or(answers.on(each).map(test::of).orElse(Truth.UNKNOWN));
        }
        if (painful != Truth.TRUE && side != Side.BOTH) {
            Truth other = answers.on(side.other()).map(test::of).orElse(Truth.UNKNOWN);
            if (other == Truth.TRUE) {
                return Truth.TRUE;
            }
        }
        return painful;
    }

    private static List<Answer> answersOf(Recorded answers) {
        List<Answer> list = new ArrayList<>();
        if (answers instanceof Recorded.Whole whole) {
            list.add(whole.answer());
        } else if (answers instanceof Recorded.Sides sides) {
            sides.left().ifPresent(list::add);
            sides.right().ifPresent(list::add);
        }
        return list;
    }
}
