package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Searches the answers a rule can be given: can it fire at all, and does it say what its table row says. */
final class RuleSearch {
    private static final int RESTARTS = 60;
    private static final int SAMPLES = 400;

    private final Catalogue catalogue;

    RuleSearch(Catalogue catalogue) {
        this.catalogue = catalogue;
    }

    /** Answers that make a condition hold, by hill climbing from many random starts with a fixed seed. */
    Optional<Observations> satisfy(Expression condition) {
        List<Expression> goals = condition instanceof Expression.And and ? and.parts() : List.of(condition);
        Map<String, List<Answer>> leaves = leaves(List.of(condition));
        Random random = new Random(17);
        for (int start = 0; start < RESTARTS; start++) {
            Map<String, Recorded> answers = random(leaves, random, 0);
            int reached = met(goals, answers);
            boolean better = true;
            while (better && reached < goals.size()) {
                better = false;
                for (Map.Entry<String, List<Answer>> leaf : leaves.entrySet()) {
                    Recorded before = answers.get(leaf.getKey());
                    for (Answer answer : leaf.getValue()) {
                        answers.put(leaf.getKey(), recorded(leaf.getKey(), answer));
                        int now = met(goals, answers);
                        if (now > reached) {
                            reached = now;
                            before = answers.get(leaf.getKey());
                            better = true;
                        } else if (before == null) {
                            answers.remove(leaf.getKey());
                        } else {
                            answers.put(leaf.getKey(), before);
                        }
                    }
                }
            }
            if (reached == goals.size()) {
                return Optional.of(Observations.of(catalogue, Side.LEFT, answers));
            }
        }
        return Optional.empty();
    }

    /** Answers on which the rules of a row and the row itself disagree, among random ones with a fixed seed. */
    Optional<Observations> disagreement(RedFlagRow row, List<Expression> rules) {
        List<Expression> all = new ArrayList<>(rules);
        all.add(row.raisedWhen());
        row.appliesIf().ifPresent(all::add);
        Map<String, List<Answer>> leaves = leaves(all);
        Random random = new Random(29);
        for (int sample = 0; sample < SAMPLES; sample++) {
            Observations answers =
                    Observations.of(catalogue, Side.LEFT, random(leaves, random, random.nextDouble() * 0.6));
            boolean byRules = rules.stream().anyMatch(rule -> rule.in(answers) == Truth.TRUE);
            boolean byRow = row.raisedWhen().in(answers) == Truth.TRUE
                    && row.appliesIf().map(gate -> gate.in(answers)).orElse(Truth.TRUE) != Truth.FALSE;
            if (byRules != byRow) {
                return Optional.of(answers);
            }
        }
        return Optional.empty();
    }

    private int met(List<Expression> goals, Map<String, Recorded> answers) {
        Observations observations = Observations.of(catalogue, Side.LEFT, answers);
        return (int) goals.stream()
                .filter(goal -> goal.in(observations) == Truth.TRUE)
                .count();
    }

    private Map<String, Recorded> random(Map<String, List<Answer>> leaves, Random random, double leftOut) {
        Map<String, Recorded> answers = new LinkedHashMap<>();
        leaves.forEach((id, values) -> {
            if (random.nextDouble() >= leftOut) {
                answers.put(id, recorded(id, values.get(random.nextInt(values.size()))));
            }
        });
        return answers;
    }

    private Recorded recorded(String id, Answer answer) {
        if (catalogue.comparedBetweenSides().contains(id)) {
            // The answer stands for the difference between the sides.
            return new Recorded.Sides(Optional.of(answer), Optional.of(new Answer.Quantity(0, "0")));
        }
        return catalogue.finding(id).orElseThrow().perSide()
                ? new Recorded.Sides(Optional.of(answer), Optional.empty())
                : new Recorded.Whole(answer);
    }

    /** The asked findings behind the conditions, each with the answers that can matter. */
    private Map<String, List<Answer>> leaves(List<Expression> conditions) {
        Map<String, Set<Double>> cutOffs = new LinkedHashMap<>();
        conditions.forEach(condition -> condition.atoms(atom -> collect(atom, cutOffs)));
        Map<String, List<Answer>> leaves = new LinkedHashMap<>();
        cutOffs.forEach(
                (id, numbers) -> leaves.put(id, values(catalogue.finding(id).orElseThrow(), numbers)));
        return leaves;
    }

    private void collect(Expression.Atom atom, Map<String, Set<Double>> cutOffs) {
        catalogue
                .computed(atom.finding())
                .ifPresentOrElse(computed -> computed.means().atoms(inner -> collect(inner, cutOffs)), () -> {
                    Set<Double> numbers = cutOffs.computeIfAbsent(atom.finding(), ignored -> new LinkedHashSet<>());
                    if (atom instanceof Expression.Compare compare) {
                        numbers.add(compare.cutOff());
                    }
                });
    }

    private List<Answer> values(FindingDefinition finding, Set<Double> cutOffs) {
        List<Answer> values = new ArrayList<>();
        switch (finding.kind()) {
            case YES_NO -> values.addAll(List.of(Answer.State.PRESENT, Answer.State.ABSENT));
            case CHOICE -> finding.choices().forEach(choice -> values.add(new Answer.Choice(choice)));
            case DATE -> values.add(new Answer.Day(java.time.LocalDate.EPOCH));
            case NUMBER, SCALE_0_10, DURATION -> {
                double step = cutOffs.stream().anyMatch(cutOff -> Math.abs(cutOff) < 2) ? 0.01 : 1;
                Set<Double> numbers = new LinkedHashSet<>();
                for (double cutOff : cutOffs) {
                    numbers.addAll(List.of(cutOff - step, cutOff, cutOff + step));
                }
                if (numbers.isEmpty()) {
                    numbers.add(finding.min().orElse(0));
                }
                boolean difference = catalogue.comparedBetweenSides().contains(finding.id());
                numbers.stream()
                        .filter(number -> difference || withinLimits(finding, number))
                        .forEach(number -> values.add(new Answer.Quantity(number, number.toString())));
            }
        }
        return values;
    }

    private static boolean withinLimits(FindingDefinition finding, double number) {
        return number >= finding.min().orElse(number) && number <= finding.max().orElse(number);
    }
}
