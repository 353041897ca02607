package org.gerdy.rules.intake;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** Answers nobody gave, inside what each finding takes. */
final class RandomAnswers {
    private RandomAnswers() {}

    /** So many different findings at most, answered at random. */
    static Map<String, Recorded> some(Random random, Side side, int count) {
        List<FindingDefinition> all =
                List.copyOf(Cases.GERDY.knowledge().catalogue().findings());
        Map<String, Recorded> answers = new LinkedHashMap<>();
        for (int i = 0; i < count; i++) {
            String id = all.get(random.nextInt(all.size())).id();
            answers.put(id, of(random, id, side));
        }
        return answers;
    }

    /** One answer, on the painful side, the other or both. */
    static Recorded of(Random random, String id, Side side) {
        FindingDefinition finding =
                Cases.GERDY.knowledge().catalogue().finding(id).orElseThrow();
        if (!finding.perSide()) {
            return new Recorded.Whole(answer(random, finding));
        }
        int which = random.nextInt(4);
        boolean left = which == 0 || (which > 1 && side != Side.RIGHT);
        boolean right = which == 0 || !left || (which == 1);
        return new Recorded.Sides(
                left ? Optional.of(answer(random, finding)) : Optional.empty(),
                right ? Optional.of(answer(random, finding)) : Optional.empty());
    }

    private static Answer answer(Random random, FindingDefinition finding) {
        return switch (finding.kind()) {
            case YES_NO -> Answer.State.values()[random.nextInt(3)];
            case CHOICE ->
                new Answer.Choice(
                        finding.choices().get(random.nextInt(finding.choices().size())));
            case DATE -> new Answer.Day(LocalDate.of(2025, 1 + random.nextInt(12), 1 + random.nextInt(28)));
            case NUMBER, SCALE_0_10, DURATION -> {
                double low = finding.min().orElse(0);
                double high = finding.max().orElse(100);
                double step = finding.kind() == Kind.SCALE_0_10 ? 2 : 10;
                double value = Math.ceil(low * step) / step
                        + Math.floor(random.nextDouble() * (high - Math.ceil(low * step) / step) * step) / step;
                String text = value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
                yield new Answer.Quantity(Double.parseDouble(text), text);
            }
        };
    }
}
