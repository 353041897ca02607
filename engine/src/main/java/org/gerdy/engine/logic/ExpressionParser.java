package org.gerdy.engine.logic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Recursive descent over the expression language, character by character; see {@link Expression}. */
final class ExpressionParser {
    private final String text;
    private int at;

    ExpressionParser(String text) {
        this.text = text;
    }

    Expression whole() {
        Expression expression = either();
        skipSpace();
        if (at < text.length()) {
            throw wrong("the end of the expression");
        }
        return expression;
    }

    private Expression either() {
        List<Expression> parts = new ArrayList<>();
        do {
            parts.add(both());
        } while (takeWord("OR"));
        return parts.size() == 1 ? parts.get(0) : new Expression.Or(List.copyOf(parts));
    }

    private Expression both() {
        List<Expression> parts = new ArrayList<>();
        do {
            parts.add(factor());
        } while (takeWord("AND"));
        return parts.size() == 1 ? parts.get(0) : new Expression.And(List.copyOf(parts));
    }

    private Expression factor() {
        if (takeWord("NOT")) {
            return new Expression.Not(factor());
        }
        if (take("(")) {
            Expression inner = either();
            expect(")");
            return inner;
        }
        String word = word("a finding id");
        if (word.startsWith("at-least-") && take("(")) {
            return new Expression.AtLeast(countOf(word), list());
        }
        if (word.equals("points") && take("(")) {
            Points points = points();
            return new Expression.Score(points, comparison(), number());
        }
        if (word.equals("recorded") && take("(")) {
            Expression inner = either();
            expect(")");
            return new Expression.Recorded(inner);
        }
        if (word.equals("side-diff") && take("(")) {
            String finding = word("a finding id");
            expect(")");
            return new Expression.CompareSides(finding, comparison(), number());
        }
        return atom(word);
    }

    private Expression atom(String finding) {
        int start = at;
        Comparison comparison = comparison();
        Optional<String> number = nextNumber();
        if (number.isPresent() && (at == text.length() || !isWordCharacter(text.charAt(at)))) {
            double cutOff = Double.parseDouble(number.get());
            return takeWord("x")
                    ? new Expression.CompareTo(finding, comparison, cutOff, word("a finding id"))
                    : new Expression.Compare(finding, comparison, cutOff);
        }
        if (number.isPresent()) {
            at = start;
            comparison = comparison();
        }
        if (comparison != Comparison.EQUAL) {
            throw wrong("a number after " + comparison.sign());
        }
        return new Expression.Is(finding, word("a state, a choice or a number"));
    }

    private Points points() {
        List<Points.Item> items = new ArrayList<>();
        do {
            double weight = number();
            expect(":");
            items.add(new Points.Item(weight, either()));
        } while (take(","));
        expect(")");
        return new Points(List.copyOf(items));
    }

    private List<Expression> list() {
        List<Expression> parts = new ArrayList<>();
        do {
            parts.add(either());
        } while (take(","));
        expect(")");
        return List.copyOf(parts);
    }

    private int countOf(String word) {
        try {
            return Integer.parseInt(word.substring("at-least-".length()));
        } catch (NumberFormatException e) {
            throw wrong("a count in " + word, e);
        }
    }

    private Comparison comparison() {
        // In this order >= is found before >.
        for (Comparison comparison : Comparison.values()) {
            if (take(comparison.sign())) {
                return comparison;
            }
        }
        throw wrong("one of >= <= > < =");
    }

    private double number() {
        return Double.parseDouble(nextNumber().orElseThrow(() -> wrong("a number")));
    }

    private boolean takeWord(String word) {
        skipSpace();
        int end = at + word.length();
        if (text.startsWith(word, at) && (end == text.length() || !isWordCharacter(text.charAt(end)))) {
            at = end;
            return true;
        }
        return false;
    }

    private boolean take(String symbol) {
        skipSpace();
        if (text.startsWith(symbol, at)) {
            at += symbol.length();
            return true;
        }
        return false;
    }

    private void expect(String symbol) {
        if (!take(symbol)) {
            throw wrong("'" + symbol + "'");
        }
    }

    private String word(String what) {
        skipSpace();
        int start = at;
        while (at < text.length() && (isPlain(text.charAt(at)) || (at > start && text.charAt(at) == '-'))) {
            at++;
        }
        if (at == start) {
            throw wrong(what);
        }
        return text.substring(start, at);
    }

    /** The number that stands here, such as -2 or 0.5; nothing is taken when none does. */
    private Optional<String> nextNumber() {
        skipSpace();
        int start = at < text.length() && text.charAt(at) == '-' ? at + 1 : at;
        int end = digits(start);
        if (end == start) {
            return Optional.empty();
        }
        if (end < text.length() && text.charAt(end) == '.' && digits(end + 1) > end + 1) {
            end = digits(end + 1);
        }
        String number = text.substring(at, end);
        at = end;
        return Optional.of(number);
    }

    /** Where the digits from here end. */
    private int digits(int from) {
        int end = from;
        while (end < text.length() && text.charAt(end) >= '0' && text.charAt(end) <= '9') {
            end++;
        }
        return end;
    }

    private static boolean isPlain(char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    }

    private void skipSpace() {
        while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
            at++;
        }
    }

    private static boolean isWordCharacter(char c) {
        return Character.isLetterOrDigit(c) || c == '-';
    }

    private IllegalArgumentException wrong(String expected) {
        return new IllegalArgumentException(message(expected));
    }

    private IllegalArgumentException wrong(String expected, Throwable cause) {
        return new IllegalArgumentException(message(expected), cause);
    }

    private String message(String expected) {
        return "Expected " + expected + " at character " + (at + 1) + " of: " + text;
    }
}
