package org.gerdy.engine.intake;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** The answers a question can have, as few as tell everything the rules can tell apart. */
final class PossibleAnswers {
    /** Numbers tried for one finding at most. */
    private static final int MOST_NUMBERS = 8;

    private final Map<String, TreeSet<Double>> cutOffs = new HashMap<>();

    PossibleAnswers(KnowledgeBase knowledge) {
        knowledge.catalogue().computed().forEach(finding -> collect(finding.means()));
        knowledge.catalogue().findings().forEach(finding -> finding.onlyIf().ifPresent(this::collect));
        for (RedFlagRow row : knowledge.redFlags()) {
            collect(row.raisedWhen());
            row.appliesIf().ifPresent(this::collect);
            row.trigger().ifPresent(this::collect);
        }
    }

    private void collect(Expression expression) {
        expression.atoms(atom -> {
            if (atom instanceof Expression.Compare compare) {
                cutOffs.computeIfAbsent(compare.finding(), ignored -> new TreeSet<>())
                        .add(compare.cutOff());
            }
        });
    }

    /** The answers: both states, every choice, or one number inside each stretch between cut-offs. Dates have none. */
    List<Answer> of(FindingDefinition finding) {
        return switch (finding.kind()) {
            case YES_NO -> List.of(Answer.State.PRESENT, Answer.State.ABSENT);
            case CHOICE ->
                finding.choices().stream().<Answer>map(Answer.Choice::new).toList();
            case NUMBER, SCALE_0_10, DURATION -> numbers(finding);
            case DATE -> List.of();
        };
    }

    private List<Answer> numbers(FindingDefinition finding) {
        double low = finding.min().orElse(0);
        double high = finding.max().orElse(100);
        List<Double> ends = new ArrayList<>(List.of(low));
        cutOffs.getOrDefault(finding.id(), new TreeSet<>()).stream()
                .filter(cut -> cut > low && cut < high)
                .forEach(ends::add);
        ends.add(high);
        List<Answer> answers = new ArrayList<>();
        for (int i = 0; i + 1 < ends.size() && answers.size() < MOST_NUMBERS; i++) {
            double step = finding.kind() == Kind.SCALE_0_10 ? 2.0 : 10.0;
            double middle = Math.floor((ends.get(i) + ends.get(i + 1)) / 2 * step) / step;
            double value = middle <= ends.get(i) ? (ends.get(i) + ends.get(i + 1)) / 2 : middle;
            answers.add(number(value, finding.unit()));
        }
        return answers;
    }

    private static Answer number(double value, String unit) {
        String text = value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
        return new Answer.Quantity(value, unit.isEmpty() ? text : text + " " + unit);
    }

    /** An answer on every painful side, or about the person. */
    static Recorded recorded(FindingDefinition finding, Side side, Answer answer) {
        if (!finding.perSide()) {
            return new Recorded.Whole(answer);
        }
        return new Recorded.Sides(
                side == Side.RIGHT ? Optional.empty() : Optional.of(answer),
                side == Side.LEFT ? Optional.empty() : Optional.of(answer));
    }
}
