package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;

/**
 * The answers that can matter to some conditions: each finding they rest on, with every state, every choice they name
 * and one they do not, and for numbers each cut-off with the value just below and just above it. Sides are left.
 */
final class AnswerSpace {
    private final Catalogue catalogue;
    private final Map<String, Set<Double>> cutOffs = new LinkedHashMap<>();
    private final Map<String, Set<String>> choices = new LinkedHashMap<>();
    private final Map<String, List<Recorded>> values = new LinkedHashMap<>();

    AnswerSpace(Catalogue catalogue, Collection<Expression> conditions) {
        this.catalogue = catalogue;
        conditions.forEach(condition -> condition.atoms(this::collect));
        cutOffs.forEach(
                (id, numbers) -> values.put(id, answers(catalogue.finding(id).orElseThrow(), numbers)));
    }

    /** Adds findings that matter by being answered at all. */
    AnswerSpace and(Collection<String> findings) {
        for (String finding : findings) {
            for (String asked : catalogue.askedBehind(finding)) {
                if (!values.containsKey(asked)) {
                    values.put(asked, answers(catalogue.finding(asked).orElseThrow(), Set.of()));
                }
            }
        }
        return this;
    }

    /** The answers that can matter, by finding. */
    Map<String, List<Recorded>> values() {
        return values;
    }

    /** How many combinations there are, each finding also left unanswered. */
    double combinations() {
        return values.values().stream().mapToDouble(list -> list.size() + 1.0).reduce(1, (a, b) -> a * b);
    }

    private void collect(Expression.Atom atom) {
        catalogue
                .computed(atom.finding())
                .ifPresentOrElse(computed -> computed.means().atoms(this::collect), () -> {
                    Set<Double> numbers = cutOffs.computeIfAbsent(atom.finding(), ignored -> new LinkedHashSet<>());
                    if (atom instanceof Expression.Compare compare) {
                        numbers.add(compare.cutOff());
                    } else if (atom instanceof Expression.CompareSides compare) {
                        numbers.add(compare.cutOff());
                    } else if (atom instanceof Expression.Is is) {
                        choices.computeIfAbsent(is.finding(), ignored -> new LinkedHashSet<>())
                                .add(is.value());
                    }
                });
    }

    /** The distance that counts as just missing a cut-off: a hundredth for ratios, one for everything else. */
    static double step(double cutOff) {
        return Math.abs(cutOff) < 2 ? 0.01 : 1;
    }

    private List<Recorded> answers(FindingDefinition finding, Set<Double> numbers) {
        List<Answer> answers = new ArrayList<>();
        switch (finding.kind()) {
            case YES_NO -> answers.addAll(List.of(Answer.State.PRESENT, Answer.State.ABSENT));
            case CHOICE -> {
                Set<String> named = choices.getOrDefault(finding.id(), Set.of());
                finding.choices().stream().filter(named::contains).forEach(one -> answers.add(new Answer.Choice(one)));
                finding.choices().stream()
                        .filter(one -> !named.contains(one))
                        .reduce((first, second) -> second)
                        .ifPresent(one -> answers.add(new Answer.Choice(one)));
            }
            case DATE -> answers.add(new Answer.Day(java.time.LocalDate.of(2026, 1, 5)));
            case NUMBER, SCALE_0_10, DURATION -> {
                return numbers(finding, numbers);
            }
        }
        return answers.stream().map(answer -> recorded(finding, answer)).toList();
    }

    private List<Recorded> numbers(FindingDefinition finding, Set<Double> cutOffs) {
        Set<Double> numbers = new TreeSet<>();
        for (double cutOff : cutOffs) {
            double step = step(cutOff);
            numbers.addAll(List.of(rounded(cutOff - step), cutOff, rounded(cutOff + step)));
        }
        double low = finding.min().orElse(0);
        double high = finding.max().orElse(1000);
        if (catalogue.comparedBetweenSides().contains(finding.id())) {
            double other = Math.rint(low + (high - low) / 3);
            if (numbers.isEmpty()) {
                numbers.add(0.0);
            }
            return numbers.stream()
                    .map(difference -> (Recorded)
                            new Recorded.Sides(Optional.of(quantity(other + difference)), Optional.of(quantity(other))))
                    .toList();
        }
        if (numbers.isEmpty()) {
            numbers.add(Math.max(low, Math.min(high, 1)));
        }
        return numbers.stream()
                .filter(number -> number >= low && number <= high)
                .map(number -> recorded(finding, quantity(number)))
                .toList();
    }

    private static double rounded(double number) {
        return Math.rint(number * 1000) / 1000;
    }

    static Answer quantity(double number) {
        return new Answer.Quantity(
                number, number == Math.rint(number) ? Long.toString((long) number) : Double.toString(number));
    }

    /** The answer as a visit records it, on the left where the finding has sides. */
    static Recorded recorded(FindingDefinition finding, Answer answer) {
        return finding.perSide()
                ? new Recorded.Sides(Optional.of(answer), Optional.empty())
                : new Recorded.Whole(answer);
    }

    /**
     * Answers one step from the one recorded: the other state, another choice, a number at most one step away that lies
     * on another side of a cut-off. Empty for what could not be done and for what nobody asked.
     */
    List<Recorded> neighbours(String finding, Recorded now) {
        List<Recorded> near = new ArrayList<>();
        for (Recorded other : values.getOrDefault(finding, List.of())) {
            Optional<Recorded> moved = moved(now, other);
            moved.filter(one -> !one.equals(now)).ifPresent(near::add);
        }
        return near;
    }

    /** The other answer put where the present one stands. */
    private static Optional<Recorded> moved(Recorded now, Recorded other) {
        if (now instanceof Recorded.Whole whole && other instanceof Recorded.Whole another) {
            return near(whole.answer(), another.answer()) ? Optional.of(other) : Optional.empty();
        }
        if (now instanceof Recorded.Sides sides && other instanceof Recorded.Sides another) {
            if (another.right().isPresent()) {
                // A comparison between the sides: only the painful side moves.
                return difference(sides).isPresent()
                                && difference(another).isPresent()
                                && Math.abs(difference(sides).get()
                                                - difference(another).get())
                                        <= 1.0001
                        ? Optional.of(another)
                        : Optional.empty();
            }
            Answer answer = another.left().orElseThrow();
            boolean left = sides.left().filter(one -> near(one, answer)).isPresent();
            boolean right = sides.right().filter(one -> near(one, answer)).isPresent();
            if (left || right) {
                return Optional.of(new Recorded.Sides(
                        left ? Optional.of(answer) : sides.left(), right ? Optional.of(answer) : sides.right()));
            }
        }
        return Optional.empty();
    }

    private static Optional<Double> difference(Recorded.Sides sides) {
        return sides.left().orElse(null) instanceof Answer.Quantity left
                        && sides.right().orElse(null) instanceof Answer.Quantity right
                ? Optional.of(Math.abs(left.value() - right.value()))
                : Optional.empty();
    }

    private static boolean near(Answer now, Answer other) {
        if (now == Answer.State.UNABLE) {
            return false;
        }
        if (now instanceof Answer.Quantity here && other instanceof Answer.Quantity there) {
            return Math.abs(here.value() - there.value()) <= 1.0001 * Math.max(step(there.value()), step(here.value()));
        }
        return !now.equals(other);
    }
}
