package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.drools.drl.ast.descr.AccumulateDescr;
import org.drools.drl.ast.descr.AndDescr;
import org.drools.drl.ast.descr.BaseDescr;
import org.drools.drl.ast.descr.NotDescr;
import org.drools.drl.ast.descr.OrDescr;
import org.drools.drl.ast.descr.PatternDescr;
import org.gerdy.engine.logic.Expression;

/**
 * The condition of a rule as an expression, so that it can be read, searched and held against its table row without
 * running it. Covers conditions over findings; others have none.
 */
final class RuleLogic {
    private static final Pattern QUOTED = Pattern.compile("\"([^\"]*)\"");
    private static final Pattern AT_LEAST = Pattern.compile(">=\\s*([0-9]+)");

    /** Equal to one text or to one of several; "not in" and the like are not known here. */
    private static final Pattern EQUAL = Pattern.compile("(id|choice)\\s+(==|in)\\s*[\"(]");

    private RuleLogic() {}

    /** The condition of a rule; empty when it reads anything but findings, or uses a form not known here. */
    static Optional<Expression> of(BaseDescr condition) {
        if (condition instanceof AndDescr and) {
            return all(and.getDescrs()).map(parts -> parts.size() == 1 ? parts.get(0) : new Expression.And(parts));
        }
        if (condition instanceof OrDescr or) {
            return all(or.getDescrs()).map(parts -> parts.size() == 1 ? parts.get(0) : new Expression.Or(parts));
        }
        if (condition instanceof NotDescr not && not.getDescrs().size() == 1) {
            // A fact that is not there may be unknown, so "not" is: not known to hold.
            return of(not.getDescrs().get(0)).map(part -> new Expression.Not(new Expression.Recorded(part)));
        }
        if (condition instanceof PatternDescr pattern) {
            return pattern(pattern);
        }
        return Optional.empty();
    }

    private static Optional<List<Expression>> all(List<? extends BaseDescr> descrs) {
        List<Expression> parts = new ArrayList<>();
        for (BaseDescr descr : descrs) {
            Optional<Expression> part = of(descr);
            if (part.isEmpty()) {
                return Optional.empty();
            }
            parts.add(part.get());
        }
        return parts.isEmpty() ? Optional.empty() : Optional.of(List.copyOf(parts));
    }

    private static Optional<Expression> pattern(PatternDescr pattern) {
        if (pattern.getSource() instanceof AccumulateDescr accumulate) {
            return counted(pattern, accumulate);
        }
        if (!"Finding".equals(pattern.getObjectType()) || pattern.getSource() != null) {
            return Optional.empty();
        }
        return some(pattern).map(parts -> parts.size() == 1 ? parts.get(0) : new Expression.Or(parts));
    }

    /** One part for each finding the pattern names. */
    private static Optional<List<Expression>> some(PatternDescr pattern) {
        List<String> ids = new ArrayList<>();
        List<String> tests = new ArrayList<>();
        for (BaseDescr constraint : pattern.getDescrs()) {
            String text = constraint.toString().strip();
            if (EQUAL.matcher(text).lookingAt() && text.startsWith("id ")) {
                ids.addAll(quoted(text));
            } else {
                tests.add(text);
            }
        }
        if (ids.isEmpty() || tests.size() != 1) {
            return Optional.empty();
        }
        List<Expression> parts = new ArrayList<>();
        for (String id : ids) {
            Optional<Expression> part = test(id, tests.get(0));
            if (part.isEmpty()) {
                return Optional.empty();
            }
            parts.add(part.get());
        }
        return Optional.of(List.copyOf(parts));
    }

    private static Optional<Expression> test(String id, String test) {
        if (EQUAL.matcher(test).lookingAt()) {
            List<Expression> choices = new ArrayList<>();
            quoted(test).forEach(choice -> choices.add(new Expression.Is(id, choice)));
            return choices.isEmpty()
                    ? Optional.empty()
                    : Optional.of(choices.size() == 1 ? choices.get(0) : new Expression.Or(List.copyOf(choices)));
        }
        return switch (test) {
            case "present", "present == true" -> Optional.of(new Expression.Is(id, "present"));
            case "absent", "absent == true" -> Optional.of(new Expression.Is(id, "absent"));
            case "ruledOut", "ruledOut == true" -> Optional.of(new Expression.Not(new Expression.Is(id, "present")));
            default -> Optional.empty();
        };
    }

    private static Optional<Expression> counted(PatternDescr pattern, AccumulateDescr accumulate) {
        Matcher number = AT_LEAST.matcher(pattern.getDescrs().toString());
        PatternDescr input = accumulate.getInputPattern();
        if (!number.find() || input == null) {
            return Optional.empty();
        }
        int needed = Integer.parseInt(number.group(1));
        return some(input).map(parts -> new Expression.AtLeast(needed, parts));
    }

    private static List<String> quoted(String text) {
        List<String> values = new ArrayList<>();
        Matcher matcher = QUOTED.matcher(text);
        while (matcher.find()) {
            values.add(matcher.group(1));
        }
        return values;
    }
}
