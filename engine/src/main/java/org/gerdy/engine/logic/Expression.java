package org.gerdy.engine.logic;

import java.math.BigDecimal;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/**
 * A condition over findings, decided in three values. Written as {@code a=present AND (b=absent OR c>=3)},
 * {@code at-least-2(a=present, b=present, c=present)}, {@code points(2:a=present, -1:b=present) >= 2},
 * {@code side-diff(c)>=3.0}, {@code recorded(a=present)}.
 */
public sealed interface Expression {
    /** The truth of this expression for the given answers. */
    Truth in(Answers answers);

    /** Hands over each atom, in the order written. */
    void atoms(Consumer<Atom> visitor);

    /** Reads an expression. Throws {@link IllegalArgumentException} with the place and what was expected. */
    static Expression parse(String text) {
        return new ExpressionParser(text).whole();
    }

    /** The findings this expression reads, in the order written. */
    default Set<String> findings() {
        Set<String> ids = new LinkedHashSet<>();
        atoms(atom -> ids.add(atom.finding()));
        return ids;
    }

    /** The leaves: each reads one finding. */
    sealed interface Atom extends Expression {
        /** The id of the finding read. */
        String finding();

        @Override
        default void atoms(Consumer<Atom> visitor) {
            visitor.accept(this);
        }
    }

    /** {@code finding=state} or {@code finding=choice}. */
    record Is(String finding, String value) implements Atom {
        @Override
        public Truth in(Answers answers) {
            return answers.is(finding, value);
        }

        @Override
        public String toString() {
            return finding + "=" + value;
        }
    }

    /** {@code finding >= number} and its kin. */
    record Compare(String finding, Comparison comparison, double cutOff) implements Atom {
        @Override
        public Truth in(Answers answers) {
            return answers.compare(finding, comparison, cutOff);
        }

        @Override
        public String toString() {
            return finding + comparison.sign() + plain(cutOff);
        }
    }

    /** {@code finding > 7 x other}: one number against a multiple of another. */
    record CompareTo(String finding, Comparison comparison, double factor, String other) implements Expression {
        @Override
        public Truth in(Answers answers) {
            return answers.compareTo(finding, comparison, factor, other);
        }

        @Override
        public void atoms(Consumer<Atom> visitor) {
            visitor.accept(new Compare(finding, comparison, 0));
            visitor.accept(new Compare(other, comparison, 0));
        }

        @Override
        public String toString() {
            return finding + comparison.sign() + plain(factor) + " x " + other;
        }
    }

    /** {@code side-diff(finding) >= number}: painful side minus the other. */
    record CompareSides(String finding, Comparison comparison, double cutOff) implements Atom {
        @Override
        public Truth in(Answers answers) {
            return answers.compareSides(finding, comparison, cutOff);
        }

        @Override
        public String toString() {
            return "side-diff(" + finding + ")" + comparison.sign() + plain(cutOff);
        }
    }

    /** Every part holds. */
    record And(List<Expression> parts) implements Expression {
        @Override
        public Truth in(Answers answers) {
            Truth result = Truth.TRUE;
            for (Expression part : parts) {
                result = result.and(part.in(answers));
                if (result == Truth.FALSE) {
                    return result;
                }
            }
            return result;
        }

        @Override
        public void atoms(Consumer<Atom> visitor) {
            parts.forEach(part -> part.atoms(visitor));
        }

        @Override
        public String toString() {
            return parts.stream()
                    .map(part -> part instanceof Or ? "(" + part + ")" : part.toString())
                    .collect(Collectors.joining(" AND "));
        }
    }

    /** One part holds at least. */
    record Or(List<Expression> parts) implements Expression {
        @Override
        public Truth in(Answers answers) {
            Truth result = Truth.FALSE;
            for (Expression part : parts) {
                result = result.or(part.in(answers));
                if (result == Truth.TRUE) {
                    return result;
                }
            }
            return result;
        }

        @Override
        public void atoms(Consumer<Atom> visitor) {
            parts.forEach(part -> part.atoms(visitor));
        }

        @Override
        public String toString() {
            return parts.stream()
                    .map(part -> part instanceof And ? "(" + part + ")" : part.toString())
                    .collect(Collectors.joining(" OR "));
        }
    }

    /** The part does not hold. */
    record Not(Expression part) implements Expression {
        @Override
        public Truth in(Answers answers) {
            return part.in(answers).not();
        }

        @Override
        public void atoms(Consumer<Atom> visitor) {
            part.atoms(visitor);
        }

        @Override
        public String toString() {
            return "NOT " + (part instanceof Atom ? part.toString() : "(" + part + ")");
        }
    }

    /** True when the part is known to hold; false otherwise, never unknown. */
    record Recorded(Expression part) implements Expression {
        @Override
        public Truth in(Answers answers) {
            return Truth.of(part.in(answers) == Truth.TRUE);
        }

        @Override
        public void atoms(Consumer<Atom> visitor) {
            part.atoms(visitor);
        }

        @Override
        public String toString() {
            return "recorded(" + part + ")";
        }
    }

    /** True when {@code needed} parts hold, false when fewer than that still can. */
    record AtLeast(int needed, List<Expression> parts) implements Expression {
        @Override
        public Truth in(Answers answers) {
            int held = 0;
            int possible = 0;
            for (Expression part : parts) {
                Truth truth = part.in(answers);
                held += truth == Truth.TRUE ? 1 : 0;
                possible += truth == Truth.FALSE ? 0 : 1;
            }
            if (held >= needed) {
                return Truth.TRUE;
            }
            return possible < needed ? Truth.FALSE : Truth.UNKNOWN;
        }

        @Override
        public void atoms(Consumer<Atom> visitor) {
            parts.forEach(part -> part.atoms(visitor));
        }

        @Override
        public String toString() {
            return "at-least-" + needed
                    + parts.stream().map(Expression::toString).collect(Collectors.joining(", ", "(", ")"));
        }
    }

    /** A score held against a number: decided only when its lowest and highest total agree. */
    record Score(Points points, Comparison comparison, double cutOff) implements Expression {
        @Override
        public Truth in(Answers answers) {
            Points.Total total = points.total(answers);
            boolean low = comparison.holds(total.low(), cutOff);
            boolean high = comparison.holds(total.high(), cutOff);
            if (comparison == Comparison.EQUAL && total.low() != total.high()) {
                return cutOff < total.low() || cutOff > total.high() ? Truth.FALSE : Truth.UNKNOWN;
            }
            return low == high ? Truth.of(low) : Truth.UNKNOWN;
        }

        @Override
        public void atoms(Consumer<Atom> visitor) {
            points.items().forEach(item -> item.condition().atoms(visitor));
        }

        @Override
        public String toString() {
            return points + comparison.sign() + plain(cutOff);
        }
    }

    /** A number as the expression language writes it: digits and a point, never an exponent. */
    private static String plain(double number) {
        return number == Math.rint(number) && Math.abs(number) < 1e15
                ? Long.toString((long) number)
                : BigDecimal.valueOf(number).toPlainString();
    }
}
