package org.gerdy.engine.drill;

import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** Writes answers down the way the patient being made gives them: on the painful side, numbers within the ordinary. */
public final class OrdinaryAnswers {
    private final DrillTables tables;
    private final Set<String> compared;
    private final Random random;
    private final Side side;

    /**
     * @param compared findings whose number is taken on both legs
     * @param side the painful side
     */
    public OrdinaryAnswers(DrillTables tables, Set<String> compared, Random random, Side side) {
        this.tables = tables;
        this.compared = compared;
        this.random = random;
        this.side = side;
    }

    /** The answer somebody without the sign gives; empty when the tables tell none. */
    public Optional<Recorded> ordinary(FindingDefinition finding) {
        return tables.normal(finding).map(normal -> {
            if (finding.kind() == Kind.YES_NO) {
                return recorded(
                        finding, normal.answer().equals("present") ? Answer.State.PRESENT : Answer.State.ABSENT);
            }
            if (finding.kind() == Kind.CHOICE) {
                return recorded(finding, new Answer.Choice(normal.answer()));
            }
            Answer drawn = drawn(normal, finding);
            return recorded(finding, drawn);
        });
    }

    private Answer drawn(DrillTables.Normal normal, FindingDefinition finding) {
        double low = normal.low().orElse(0);
        int steps = (int) Math.round((normal.high().orElse(low) - low) / normal.step());
        return quantity(low + normal.step() * random.nextInt(steps + 1), finding);
    }

    /** This answer on the painful side; where both legs are compared, an ordinary one on the other. */
    Recorded recorded(FindingDefinition finding, Answer answer) {
        if (!finding.perSide()) {
            return new Recorded.Whole(answer);
        }
        if (!compared.contains(finding.id())) {
            return side == Side.LEFT
                    ? new Recorded.Sides(Optional.of(answer), Optional.empty())
                    : new Recorded.Sides(Optional.empty(), Optional.of(answer));
        }
        Answer other = tables.normal(finding)
                .filter(normal -> normal.low().isPresent())
                .map(normal -> drawn(normal, finding))
                .orElse(answer);
        return both(answer, other);
    }

    /** An answer for each leg. */
    Recorded both(Answer painful, Answer other) {
        return side == Side.LEFT
                ? new Recorded.Sides(Optional.of(painful), Optional.of(other))
                : new Recorded.Sides(Optional.of(other), Optional.of(painful));
    }

    /** A number to two decimals, in the unit of the finding. */
    static Answer quantity(double value, FindingDefinition finding) {
        double rounded = Math.rint(value * 100) / 100;
        String text = rounded == Math.rint(rounded) ? Long.toString((long) rounded) : Double.toString(rounded);
        return new Answer.Quantity(rounded, finding.unit().isEmpty() ? text : text + " " + finding.unit());
    }
}
