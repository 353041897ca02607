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
    /** The consequence of a plan rule. */
    public static final Pattern CHOICE = Pattern.compile("(PlanChoice\\.take|StageSign\\.of)\\(\\s*\"([^\"]+)\"");

    private record PlanRule(List<WrittenPattern> when, List<Conclusion> then) {}

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
                            .map(WrittenPattern::fields)
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
                .filter(WrittenPattern::ofFinding)
                .flatMap(looked -> {
                    Set<String> choices = looked.texts("choice");
                    return looked.texts("id").stream().flatMap(id -> (choices.isEmpty() ? Set.of("present") : choices)
                            .stream().map(value -> (Expression) new Expression.Is(id, value)));
                })
                .toList();
    }

    /** What a plan rule chooses or points at; empty when it cannot be read. */
    public static List<Conclusion> chosen(RuleCard rule) {
        return parse(rule).map(PlanRule::then).orElse(List.of());
    }

    private static Optional<PlanRule> parse(RuleCard rule) {
        List<WrittenPattern> when = new ArrayList<>();
        for (String line : patterns(rule)) {
            Optional<WrittenPattern> looked = WrittenPattern.of(line);
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
}
