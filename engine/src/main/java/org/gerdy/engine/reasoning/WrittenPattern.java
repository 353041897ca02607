package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gerdy.engine.fact.Candidate;
import org.gerdy.engine.logic.Answers;
import org.gerdy.engine.logic.Truth;

/**
 * One pattern of a rule as written, on a line of its own: which facts it looks for, and the texts their fields may have.
 *
 * @param negated whether there must be none
 * @param kind the facts it looks for
 * @param fields what each field must be
 * @param states for findings, the states of which one must hold
 */
public record WrittenPattern(boolean negated, String kind, List<Field> fields, Set<String> states) {
    private static final Pattern PATTERN = Pattern.compile("(not |exists )?\\s*(\\w+)\\(\\s*(.*?)\\s*\\)");
    private static final Pattern CONSTRAINT = Pattern.compile("((?:[^,()\"]|\"[^\"]*\"|\\([^()]*\\))+)(?:,\\s*|$)");
    private static final Pattern FIELD = Pattern.compile("(\\w+)\\s*(==|!=|\\bin\\b)\\s*(\"[^\"]*\"|\\([^()]*\\))");
    private static final Pattern BOUND = Pattern.compile("\\$\\w+\\s*:\\s*\\w+");
    private static final Pattern TEXT = Pattern.compile("\"([^\"]*)\"");
    private static final Pattern STATES = Pattern.compile("\\(?\\s*(\\w+(?:\\s*\\|\\|\\s*\\w+)*)\\s*\\)?");
    private static final Set<String> STATE = Set.of("present", "absent", "ruledOut");
    private static final String FINDING = "Finding";

    /**
     * What one field must be.
     *
     * @param is whether it must be one of the texts, rather than none of them
     */
    public record Field(String name, boolean is, Set<String> texts) {}

    /** The pattern on this line; empty when it compares anything but fields with texts. */
    public static Optional<WrittenPattern> of(String line) {
        Matcher pattern = PATTERN.matcher(line.strip());
        if (!pattern.matches()) {
            return Optional.empty();
        }
        List<Field> fields = new ArrayList<>();
        Set<String> states = Set.of();
        for (String constraint : constraints(line)) {
            Matcher field = FIELD.matcher(constraint);
            Matcher state = STATES.matcher(constraint);
            if (field.matches()) {
                fields.add(new Field(
                        field.group(1),
                        !field.group(2).equals("!="),
                        // In the order written, so that whoever goes through them does so the same way every time.
                        TEXT.matcher(field.group(3))
                                .results()
                                .map(text -> text.group(1))
                                .collect(Collectors.toCollection(LinkedHashSet::new))));
            } else if (pattern.group(2).equals(FINDING) && state.matches()) {
                states = Set.of(state.group(1).split("\\s*\\|\\|\\s*", -1));
                if (!STATE.containsAll(states)) {
                    return Optional.empty();
                }
            } else if (!BOUND.matcher(constraint).matches()) {
                return Optional.empty();
            }
        }
        return Optional.of(
                new WrittenPattern("not ".equals(pattern.group(1)), pattern.group(2), List.copyOf(fields), states));
    }

    /** What stands between the brackets of the pattern on this line; empty when there is none. */
    public static String inside(String line) {
        Matcher pattern = PATTERN.matcher(line.strip());
        return pattern.matches() ? pattern.group(3) : "";
    }

    /** Its constraints as written. */
    public static List<String> constraints(String line) {
        return CONSTRAINT
                .matcher(inside(line))
                .results()
                .map(found -> found.group(1).strip())
                .toList();
    }

    /** Whether it looks for a finding. */
    public boolean ofFinding() {
        return kind.equals(FINDING);
    }

    /** The texts a field may have; empty when nothing says so. */
    public Set<String> texts(String field) {
        return fields.stream()
                .filter(one -> one.is() && one.name().equals(field))
                .findFirst()
                .map(Field::texts)
                .orElse(Set.of());
    }

    /** A candidate as patterns see it. */
    static Map<String, String> fields(Candidate candidate) {
        return Map.of(
                "condition", candidate.condition(),
                "standing", candidate.standing(),
                "disposition", candidate.disposition());
    }

    /** Whether a fact with these fields is one it looks for. */
    boolean fits(Map<String, String> fact) {
        return fields.stream()
                .allMatch(field -> field.texts().contains(fact.getOrDefault(field.name(), "")) == field.is());
    }

    /** Whether the pattern holds among these facts, by kind, and answers. */
    boolean in(Map<String, List<Map<String, String>>> facts, Answers answers) {
        boolean there = ofFinding()
                ? texts("id").stream().anyMatch(id -> finding(id, answers))
                : facts.getOrDefault(kind, List.of()).stream().anyMatch(this::fits);
        return there != negated;
    }

    private boolean finding(String id, Answers answers) {
        return states.stream().anyMatch(state -> is(id, state, answers))
                || texts("choice").stream().anyMatch(choice -> answers.is(id, choice) == Truth.TRUE);
    }

    private static boolean is(String id, String state, Answers answers) {
        return state.equals("ruledOut")
                ? answers.is(id, "present") == Truth.FALSE
                : answers.is(id, state) == Truth.TRUE;
    }
}
