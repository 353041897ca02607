package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Points;

/** Every condition that differs from a given one by a single slip: a part dropped or negated, a cut-off or a count moved. */
final class ExpressionMutants {
    private ExpressionMutants() {}

    /** One changed condition, with the change in words. */
    record Changed(String change, Expression condition) {}

    static List<Changed> of(Expression condition) {
        List<Changed> all = new ArrayList<>();
        within(condition, changed -> changed, all);
        return all;
    }

    private static void within(Expression here, Function<Expression, Expression> rebuild, List<Changed> all) {
        if (here instanceof Expression.And and) {
            parts(and.parts(), parts -> rebuild.apply(and(parts)), all);
        } else if (here instanceof Expression.Or or) {
            parts(or.parts(), parts -> rebuild.apply(or(parts)), all);
        } else if (here instanceof Expression.AtLeast some) {
            atLeast(some, rebuild, all);
        } else if (here instanceof Expression.Not not) {
            all.add(new Changed("negation dropped: " + not, rebuild.apply(not.part())));
            if (!(not.part() instanceof Expression.Atom)) {
                within(not.part(), part -> rebuild.apply(new Expression.Not(part)), all);
            }
        } else if (here instanceof Expression.Recorded recorded) {
            within(recorded.part(), part -> rebuild.apply(new Expression.Recorded(part)), all);
        } else if (here instanceof Expression.Score score) {
            score(score, rebuild, all);
        } else if (here instanceof Expression.Compare compare) {
            compare(compare, rebuild, all);
        } else if (here instanceof Expression.CompareSides compare) {
            for (double moved : moved(compare.cutOff())) {
                all.add(new Changed(
                        "cut-off moved: " + compare + " to " + moved,
                        rebuild.apply(new Expression.CompareSides(compare.finding(), compare.comparison(), moved))));
            }
            all.add(new Changed("negated: " + compare, rebuild.apply(new Expression.Not(compare))));
        } else if (here instanceof Expression.Is is) {
            all.add(new Changed("negated: " + is, rebuild.apply(negated(is))));
        }
    }

    private static Expression negated(Expression.Is is) {
        return switch (is.value()) {
            case "present" -> new Expression.Is(is.finding(), "absent");
            case "absent" -> new Expression.Is(is.finding(), "present");
            default -> new Expression.Not(is);
        };
    }

    private static void parts(
            List<Expression> parts, Function<List<Expression>, Expression> rebuild, List<Changed> all) {
        for (int i = 0; i < parts.size(); i++) {
            int at = i;
            if (parts.size() > 1) {
                all.add(new Changed("dropped: " + parts.get(at), rebuild.apply(without(parts, at))));
            }
            within(parts.get(at), changed -> rebuild.apply(replaced(parts, at, changed)), all);
        }
    }

    private static Expression and(List<Expression> parts) {
        return parts.size() == 1 ? parts.get(0) : new Expression.And(parts);
    }

    private static Expression or(List<Expression> parts) {
        return parts.size() == 1 ? parts.get(0) : new Expression.Or(parts);
    }

    private static void atLeast(Expression.AtLeast some, Function<Expression, Expression> rebuild, List<Changed> all) {
        if (some.needed() > 1) {
            all.add(new Changed(
                    "count lowered: " + some, rebuild.apply(new Expression.AtLeast(some.needed() - 1, some.parts()))));
        }
        if (some.needed() < some.parts().size()) {
            all.add(new Changed(
                    "count raised: " + some, rebuild.apply(new Expression.AtLeast(some.needed() + 1, some.parts()))));
        }
        parts(some.parts(), parts -> rebuild.apply(new Expression.AtLeast(some.needed(), parts)), all);
    }

    private static void score(Expression.Score score, Function<Expression, Expression> rebuild, List<Changed> all) {
        for (double moved : new double[] {score.cutOff() - 1, score.cutOff() + 1}) {
            all.add(new Changed(
                    "cut-off moved: " + score.cutOff() + " to " + moved + " points",
                    rebuild.apply(new Expression.Score(score.points(), score.comparison(), moved))));
        }
        points(
                score.points(),
                (change, points) -> all.add(new Changed(
                        change, rebuild.apply(new Expression.Score(points, score.comparison(), score.cutOff())))));
    }

    /** Every sum that differs by a single slip in its items, with the change in words. */
    static void points(Points points, BiConsumer<String, Points> slip) {
        List<Points.Item> items = points.items();
        for (int i = 0; i < items.size(); i++) {
            Points.Item item = items.get(i);
            slip.accept("dropped: item " + item.condition(), new Points(without(items, i)));
            for (Changed changed : of(item.condition())) {
                slip.accept(
                        changed.change(),
                        new Points(replaced(items, i, new Points.Item(item.points(), changed.condition()))));
            }
        }
    }

    static <T> List<T> without(List<T> list, int at) {
        List<T> fewer = new ArrayList<>(list);
        fewer.remove(at);
        return List.copyOf(fewer);
    }

    static <T> List<T> replaced(List<T> list, int at, T one) {
        List<T> changed = new ArrayList<>(list);
        changed.set(at, one);
        return List.copyOf(changed);
    }

    private static void compare(
            Expression.Compare compare, Function<Expression, Expression> rebuild, List<Changed> all) {
        for (double moved : moved(compare.cutOff())) {
            all.add(new Changed(
                    "cut-off moved: " + compare + " to " + moved,
                    rebuild.apply(new Expression.Compare(compare.finding(), compare.comparison(), moved))));
        }
        Comparison swapped =
                switch (compare.comparison()) {
                    case AT_LEAST -> Comparison.ABOVE;
                    case ABOVE -> Comparison.AT_LEAST;
                    case AT_MOST -> Comparison.BELOW;
                    case BELOW -> Comparison.AT_MOST;
                    case EQUAL -> Comparison.EQUAL;
                };
        if (swapped != compare.comparison()) {
            all.add(new Changed(
                    "edge moved: " + compare + " to " + swapped.sign(),
                    rebuild.apply(new Expression.Compare(compare.finding(), swapped, compare.cutOff()))));
        }
        all.add(new Changed("negated: " + compare, rebuild.apply(new Expression.Not(compare))));
    }

    /** One step either way. */
    static double[] moved(double cutOff) {
        double step = AnswerSpace.step(cutOff);
        return new double[] {Math.rint((cutOff - step) * 1000) / 1000, Math.rint((cutOff + step) * 1000) / 1000};
    }
}
