package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Conclusion;
import org.gerdy.engine.fact.PlanChoice;
import org.gerdy.engine.fact.StageSign;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Answers;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.plan.Planner;
import org.gerdy.engine.plan.Situation;

/**
 * Makes plans by the written logic of the plan rules instead of the compiled rules: the same plan, no session to build.
 * Reads patterns of one line each that compare fields with texts; rules of another form are named by
 * {@link #notCovered()} and choose nothing here.
 */
public final class LogicPlanner {
    /** A pattern of a plan rule: whether it is negated, what it looks for, and its constraints. */
    public static final Pattern PATTERN = Pattern.compile("(not |exists )?\\s*(\\w+)\\(\\s*(.*?)\\s*\\)");

    /** One constraint of a pattern. */
    public static final Pattern CONSTRAINT = Pattern.compile("((?:[^,()\"]|\"[^\"]*\"|\\([^()]*\\))+)(?:,\\s*|$)");

    /** The consequence of a plan rule. */
    public static final Pattern CHOICE = Pattern.compile("(PlanChoice\\.take|StageSign\\.of)\\(\\s*\"([^\"]+)\"");

    private static final Pattern FIELD = Pattern.compile("(\\w+)\\s+(==|in)\\s+(\"[^\"]*\"|\\([^()]*\\))");
    private static final Pattern TEXT = Pattern.compile("\"([^\"]*)\"");
    private static final Pattern STATES = Pattern.compile("\\(?\\s*(\\w+(?:\\s*\\|\\|\\s*\\w+)*)\\s*\\)?");
    private static final Set<String> STATE = Set.of("present", "absent", "ruledOut");

    private record Looked(boolean negated, String kind, Map<String, Set<String>> fields, Set<String> states) {
        boolean in(Map<String, List<Map<String, String>>> facts, Answers answers) {
            boolean there = kind.equals("Finding")
                    ? fields.getOrDefault("id", Set.of()).stream().anyMatch(id -> finding(id, answers))
                    : facts.getOrDefault(kind, List.of()).stream().anyMatch(this::fact);
            return there != negated;
        }

        private boolean fact(Map<String, String> fact) {
            return fields.entrySet().stream()
                    .allMatch(field -> field.getValue().contains(fact.getOrDefault(field.getKey(), "")));
        }

        private static boolean is(String id, String state, Answers answers) {
            return state.equals("ruledOut")
                    ? answers.is(id, "present") == Truth.FALSE
                    : answers.is(id, state) == Truth.TRUE;
        }

        private boolean finding(String id, Answers answers) {
            return states.stream().anyMatch(state -> is(id, state, answers))
                    || fields.getOrDefault("choice", Set.of()).stream()
                            .anyMatch(choice -> answers.is(id, choice) == Truth.TRUE);
        }
    }

    private record PlanRule(List<Looked> when, List<Conclusion> then) {}

    private final KnowledgeBase knowledge;
    private final Planner planner;
    private final List<PlanRule> rules = new ArrayList<>();
    private final List<String> notCovered = new ArrayList<>();

    /** A planner over this knowledge base, which may be a variant, and these tables. */
    public LogicPlanner(KnowledgeBase knowledge, PlanTables tables) {
        this.knowledge = knowledge;
        this.planner = new Planner(tables);
        for (RuleCard rule : knowledge.rules().values()) {
            if (plans(rule)) {
                parse(rule).ifPresentOrElse(rules::add, () -> notCovered.add(rule.id()));
            }
        }
    }

    /** Whether a rule points at a stage or chooses an item. */
    public static boolean plans(RuleCard rule) {
        return CHOICE.matcher(rule.text()).find();
    }

    /** The ids of plan rules this planner cannot read and leaves out. */
    public List<String> notCovered() {
        return notCovered;
    }

    /** The plan that follows from an assessment of these observations. */
    public Plan plan(Assessment assessment, Observations observations) {
        return plan(choices(known(assessment, observations)));
    }

    /**
     * What plan rules are told of one patient. Worked out once, it serves every planner whose knowledge differs in plan
     * rules and items only.
     */
    public static final class Known {
        private final Situation situation;
        private final Map<String, List<Map<String, String>>> facts = new LinkedHashMap<>();

        private Known(Assessment assessment, Observations own) {
            situation = PlanReasoner.situation(assessment, own);
            facts.put(
                    "Candidate",
                    Reasoner.facts(assessment.candidates()).stream()
                            .map(one -> Map.of(
                                    "condition", one.condition(),
                                    "standing", one.standing(),
                                    "disposition", one.disposition()))
                            .toList());
            facts.put(
                    "FactorFinding",
                    PlanReasoner.found(assessment, List.of()).stream()
                            .map(one -> Map.of("factor", one.factor(), "verdict", one.verdict()))
                            .toList());
            facts.put(
                    "FlagStanding",
                    situation.flags().stream()
                            .map(one -> Map.of("flag", one.flag(), "state", one.state()))
                            .toList());
            facts.put("Triage", List.of(Map.of("urgency", situation.triage().urgency())));
        }
    }

    /**
     * What the rules chose for one patient.
     *
     * @param situation the patient
     * @param stage the earliest stage a rule points at
     * @param items the items, before what forbids them
     */
    public record Choices(Situation situation, String stage, Collection<PlanChoice> items) {}

    /** What the plan rules are told of a patient with this assessment of these observations. */
    public Known known(Assessment assessment, Observations observations) {
        return new Known(assessment, LogicReasoner.own(knowledge, observations));
    }

    /** What the rules choose. Throws {@link KnowledgeException} when none points at a stage. */
    public Choices choices(Known known) {
        String stage = planner.stage(conclusions(StageSign.class, known.facts, known.situation.answers()));
        Map<String, List<Map<String, String>>> facts = new LinkedHashMap<>(known.facts);
        facts.put("Stage", List.of(Map.of("name", stage)));
        return new Choices(known.situation, stage, conclusions(PlanChoice.class, facts, known.situation.answers()));
    }

    /** The plan that the tables leave of these choices. */
    public Plan plan(Choices choices) {
        return planner.plan(choices.situation(), choices.stage(), choices.items());
    }

    private <T extends Conclusion> Collection<T> conclusions(
            Class<T> kind, Map<String, List<Map<String, String>>> facts, Answers answers) {
        return rules.stream()
                .filter(rule -> kind.isInstance(rule.then().get(0)))
                .filter(rule -> rule.when().stream().allMatch(looked -> looked.in(facts, answers)))
                .flatMap(rule -> rule.then().stream())
                .map(kind::cast)
                .toList();
    }

    /** The patterns of a plan rule, one a line, as written. */
    public static List<String> patterns(RuleCard rule) {
        String text = rule.text();
        int when = text.indexOf("\nwhen");
        int then = text.lastIndexOf("\nthen");
        return when < 0 || then < when
                ? List.of()
                : text.substring(when + "\nwhen".length(), then)
                        .lines()
                        .map(String::strip)
                        .filter(line -> !line.isEmpty())
                        .toList();
    }

    /** What a plan rule looks for among the findings. */
    public static List<Expression> findings(RuleCard rule) {
        return parse(rule).stream()
                .flatMap(parsed -> parsed.when().stream())
                .filter(looked -> looked.kind().equals("Finding"))
                .flatMap(looked -> looked.fields().getOrDefault("id", Set.of()).stream()
                        .flatMap(id -> looked.fields().getOrDefault("choice", Set.of("present")).stream()
                                .map(value -> (Expression) new Expression.Is(id, value))))
                .toList();
    }

    private static Optional<PlanRule> parse(RuleCard rule) {
        List<Looked> when = new ArrayList<>();
        for (String line : patterns(rule)) {
            Optional<Looked> looked = looked(line);
            if (looked.isEmpty()) {
                return Optional.empty();
            }
            when.add(looked.get());
        }
        List<Conclusion> then = new ArrayList<>();
        Matcher choice = CHOICE.matcher(rule.text());
        while (choice.find()) {
            then.add(
                    choice.group(1).startsWith("PlanChoice")
                            ? new PlanChoice(choice.group(2), rule.id())
                            : new StageSign(choice.group(2), rule.id()));
        }
        return Optional.of(new PlanRule(List.copyOf(when), List.copyOf(then)));
    }

    private static Optional<Looked> looked(String line) {
        Matcher pattern = PATTERN.matcher(line);
        if (!pattern.matches()) {
            return Optional.empty();
        }
        Map<String, Set<String>> fields = new LinkedHashMap<>();
        Set<String> states = Set.of();
        Matcher constraint = CONSTRAINT.matcher(pattern.group(3));
        while (constraint.find()) {
            String text = constraint.group(1).strip();
            Matcher field = FIELD.matcher(text);
            Matcher state = STATES.matcher(text);
            if (field.matches()) {
                fields.put(
                        field.group(1),
                        TEXT.matcher(field.group(3))
                                .results()
                                .map(value -> value.group(1))
                                .collect(Collectors.toUnmodifiableSet()));
            } else if (pattern.group(2).equals("Finding") && state.matches()) {
                states = Set.of(state.group(1).split("\\s*\\|\\|\\s*", -1));
                if (!STATE.containsAll(states)) {
                    return Optional.empty();
                }
            } else {
                return Optional.empty();
            }
        }
        return Optional.of(new Looked("not ".equals(pattern.group(1)), pattern.group(2), fields, states));
    }
}
