package org.gerdy.engine.logic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class ExpressionRoundTripTest {
    private static final List<String> IDS = List.of("a", "b-2", "c", "number-of-days", "e");
    private static final double[] CUT_OFFS = {0, 1, -2, 3.0, 0.9, 0.05, 0.0005, 1e-7, 12345.678, 50_000, 2e15};

    @Property
    void whatIsPrintedReadsBackAsTheSameCondition(
            @ForAll("expressions") Expression expression, @ForAll("answers") Known known) {
        Expression again = Expression.parse(expression.toString());
        assertThat(again.toString()).isEqualTo(expression.toString());
        assertThat(again.in(known)).isEqualTo(expression.in(known));
        assertThat(again.findings()).isEqualTo(expression.findings());
    }

    @Property
    void anAnswerMoreNeverTurnsADecidedExpressionAround(
            @ForAll("monotone") Expression expression, @ForAll("answers") Known known) {
        Truth before = expression.in(known);
        for (String id : IDS) {
            if (known.is(id, "present") == Truth.UNKNOWN && before != Truth.UNKNOWN) {
                assertThat(expression.in(known.state(id, "present"))).isEqualTo(before);
            }
        }
    }

    @Provide
    Arbitrary<Expression> expressions() {
        return Arbitraries.randomValue(random -> expression(random, 3, true));
    }

    /** Without {@code recorded}, which by design turns unknown into false. */
    @Provide
    Arbitrary<Expression> monotone() {
        return Arbitraries.randomValue(random -> expression(random, 3, false));
    }

    @Provide
    Arbitrary<Known> answers() {
        return Arbitraries.randomValue(random -> {
            Known known = new Known();
            for (String id : IDS) {
                if (random.nextInt(3) > 0) {
                    known.state(id, List.of("present", "absent", "other").get(random.nextInt(3)));
                }
                if (random.nextInt(3) > 0) {
                    known.number(id, CUT_OFFS[random.nextInt(CUT_OFFS.length)]);
                    known.difference(id, CUT_OFFS[random.nextInt(CUT_OFFS.length)]);
                }
            }
            return known;
        });
    }

    private static Expression expression(Random random, int depth, boolean recorded) {
        String id = IDS.get(random.nextInt(IDS.size()));
        Comparison comparison = Comparison.values()[random.nextInt(5)];
        double cutOff = CUT_OFFS[random.nextInt(CUT_OFFS.length)];
        return switch (depth == 0 ? random.nextInt(4) : random.nextInt(recorded ? 10 : 9)) {
            case 0 ->
                new Expression.Is(
                        id, List.of("present", "absent", "some-choice").get(random.nextInt(3)));
            case 1 -> new Expression.Compare(id, comparison, cutOff);
            case 2 -> new Expression.CompareSides(id, comparison, cutOff);
            case 3 -> new Expression.CompareTo(id, comparison, cutOff, IDS.get(random.nextInt(IDS.size())));
            case 4 -> new Expression.And(list(random, depth, recorded));
            case 5 -> new Expression.Or(list(random, depth, recorded));
            case 6 -> new Expression.Not(expression(random, depth - 1, recorded));
            case 7 -> new Expression.AtLeast(1 + random.nextInt(3), list(random, depth, recorded));
            case 8 -> {
                List<Points.Item> items = new ArrayList<>();
                for (Expression part : list(random, depth, recorded)) {
                    items.add(new Points.Item(random.nextInt(9) / 2.0 - 2, part));
                }
                yield new Expression.Score(new Points(items), comparison, random.nextInt(5));
            }
            default -> new Expression.Recorded(expression(random, depth - 1, true));
        };
    }

    private static List<Expression> list(Random random, int depth, boolean recorded) {
        List<Expression> parts = new ArrayList<>();
        for (int i = 0; i < 2 + random.nextInt(2); i++) {
            parts.add(expression(random, depth - 1, recorded));
        }
        return parts;
    }
}
