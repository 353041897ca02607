package org.gerdy.engine.intake;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.Outlook;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.intake.Suggestion.Stage;
import org.gerdy.engine.knowledge.IntakeTables;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.Probe;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Orders the questions of an intake: the danger screen as its table says, then what an open flag still needs, then what
 * would tell candidates apart; the last two by expected change of what would be done, found by running the rules under
 * each possible answer. Leaves nothing out of reach; it only orders.
 */
public final class QuestionOrder {
    /** Answers the rules are run under for one ranking at most; a choice of many answers counts by each. */
    private static final int MOST_ANSWERS = 40;

    private final KnowledgeBase knowledge;
    private final PossibleAnswers answers;
    private final Chances chances;

    /** An order over this knowledge base. */
    public QuestionOrder(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.answers = new PossibleAnswers(knowledge);
        this.chances = new Chances(knowledge);
    }

    /**
     * What to ask next.
     *
     * @param probe stands on what is known
     * @param assessment what follows from what is known
     * @param setAside questions the clinician put off
     * @param apart questions asked one by one though they would stand on one screen
     * @param separating whether questions that only tell candidates apart are wanted
     */
    public NextQuestions next(
            Probe probe, Assessment assessment, Set<String> setAside, Set<String> apart, boolean separating) {
        Observations known = probe.observations();
        Map<String, Set<String>> asked = asked(assessment, known);
        Map<String, List<String>> held = new LinkedHashMap<>();
        List<Suggestion> ranked = new ArrayList<>(danger(known, assessment, asked, setAside));
        ranked.forEach(suggestion -> asked.remove(suggestion.finding()));
        Set<String> open = free(asked.keySet(), known, assessment, setAside, held);
        if (ranked.isEmpty()) {
            ranked.addAll(evaluate(probe, open, Stage.OPEN_FLAG, asked));
        }
        if (ranked.isEmpty() && separating && worthSeparating(assessment)) {
            Set<String> settling = free(settling(assessment), known, assessment, setAside, held);
            double enough = knowledge.settings().value("intake-enough-movement");
            double much = knowledge.settings().value("intake-much-movement");
            evaluate(probe, settling, Stage.CANDIDATES, asked).stream()
                    .filter(one -> one.candidateChange() >= enough
                            && (one.candidateChange() >= much || couldChangeTheLead(probe.now(), one)))
                    .forEach(ranked::add);
        }
        List<NextQuestions.HeldBack> heldBack = held.entrySet().stream()
                .map(entry -> new NextQuestions.HeldBack(entry.getKey(), entry.getValue()))
                .toList();
        return new NextQuestions(
                List.copyOf(ranked), together(ranked, known, apart), heldBack, assessment.screeningComplete());
    }

    /** Those of the danger screen that belong to the compact question of the best one, which alone otherwise. */
    private List<String> together(List<Suggestion> ranked, Observations known, Set<String> apart) {
        if (ranked.isEmpty()) {
            return List.of();
        }
        String best = ranked.get(0).finding();
        Optional<String> name = compact(best, known);
        if (name.isEmpty() || apart.contains(best) || ranked.get(0).stage() != Stage.DANGER) {
            return List.of(best);
        }
        return ranked.stream()
                .map(Suggestion::finding)
                .filter(id -> compact(id, known).equals(name) && !apart.contains(id))
                .toList();
    }

    private Optional<String> compact(String finding, Observations known) {
        return place(finding, known).flatMap(IntakeTables.Place::together);
    }

    /** This question evaluated now, whatever its rank. */
    public Suggestion explain(Probe probe, Assessment assessment, String finding) {
        Map<String, Set<String>> asked = asked(assessment, probe.observations());
        Optional<IntakeTables.Place> place = place(finding, probe.observations());
        Stage stage =
                !asked.containsKey(finding) ? Stage.CANDIDATES : place.isPresent() ? Stage.DANGER : Stage.OPEN_FLAG;
        return evaluate(
                probe,
                knowledge.catalogue().finding(finding).orElseThrow(),
                stage,
                List.copyOf(raising(assessment, asked).getOrDefault(finding, Set.of())),
                place.map(IntakeTables.Place::note).orElse(""));
    }

    /** The flags that hold this test back now, raised ones first; empty when it is not provocative or nothing holds it. */
    public List<String> heldBackBy(String finding, Assessment assessment) {
        if (!knowledge.catalogue().finding(finding).orElseThrow().provocative()) {
            return List.of();
        }
        return assessment.flags().stream()
                .filter(flag -> knowledge.intake().holdsBack().contains(flag.id()))
                .filter(flag -> flag.state() == FlagState.RAISED
                        || (flag.open() && !flag.ask().stream().allMatch(this::provocative)))
                .sorted(Comparator.comparing(flag -> flag.state() != FlagState.RAISED))
                .map(Flag::id)
                .toList();
    }

    private boolean provocative(String finding) {
        return knowledge.catalogue().finding(finding).orElseThrow().provocative();
    }

    /** What open flags ask for, and what could still raise a raised flag higher though its entry question is answered no. */
    private Map<String, Set<String>> asked(Assessment assessment, Observations known) {
        Map<String, Set<String>> asked = new LinkedHashMap<>();
        for (Flag flag : assessment.flags()) {
            if (flag.open()) {
                flag.ask().forEach(id -> asked.computeIfAbsent(id, ignored -> new LinkedHashSet<>())
                        .add(flag.id()));
            }
            for (RedFlagRow row : higherThanRaised(flag)) {
                decisive(row.raisedWhen(), known)
                        .forEach(id -> asked.computeIfAbsent(id, ignored -> new LinkedHashSet<>())
                                .add(flag.id()));
            }
        }
        return asked;
    }

    /**
     * Rows of a raised flag that would raise it higher and that an entry question closed. One that asks for nothing itself
     * is not asked for here either.
     */
    private List<RedFlagRow> higherThanRaised(Flag flag) {
        if (flag.urgency().isEmpty()) {
            return List.of();
        }
        Set<String> closed = flag.rows().stream()
                .filter(row -> row.state() == FlagState.NOT_TRIGGERED
                        && row.urgency().compareTo(flag.urgency().get()) > 0)
                .map(Flag.Row::id)
                .collect(Collectors.toSet());
        return knowledge.rowsByFlag().getOrDefault(flag.id(), List.of()).stream()
                .filter(row -> closed.contains(row.id()) && !row.needs().isEmpty())
                .toList();
    }

    /** The questions one answer to which settles this expression; all that are missing where no single one does. */
    private List<String> decisive(Expression expression, Observations known) {
        if (expression.in(known) != Truth.UNKNOWN) {
            return List.of();
        }
        List<String> missing = known.missing(expression);
        List<String> decisive = missing.stream()
                .filter(id -> {
                    FindingDefinition finding =
                            knowledge.catalogue().finding(id).orElseThrow();
                    return answers.of(finding).stream()
                            .anyMatch(answer -> expression.in(
                                            known.with(id, PossibleAnswers.recorded(finding, known.side(), answer)))
                                    != Truth.UNKNOWN);
                })
                .toList();
        return decisive.isEmpty() ? missing : decisive;
    }

    /** What open flags ask for, and what would raise them. */
    private Map<String, Set<String>> raising(Assessment assessment, Map<String, Set<String>> asked) {
        Map<String, Set<String>> raising = new LinkedHashMap<>();
        asked.forEach((id, flags) -> raising.put(id, new LinkedHashSet<>(flags)));
        for (Flag flag : assessment.openFlags()) {
            for (RedFlagRow row : knowledge.rowsByFlag().getOrDefault(flag.id(), List.of())) {
                for (String id : knowledge.catalogue().askedBehind(row.raisedWhen())) {
                    raising.computeIfAbsent(id, ignored -> new LinkedHashSet<>())
                            .add(flag.id());
                }
            }
        }
        return raising;
    }

    private List<Suggestion> danger(
            Observations known, Assessment assessment, Map<String, Set<String>> asked, Set<String> setAside) {
        Map<String, Set<String>> raising = raising(assessment, asked);
        Map<String, Suggestion> ordered = new LinkedHashMap<>();
        Set<String> steering = raising.isEmpty() ? Set.of() : knowledge.intake().steering();
        for (IntakeTables.Place place : knowledge.intake().screen()) {
            String id = place.finding();
            FindingDefinition finding = knowledge.catalogue().finding(id).orElseThrow();
            boolean here =
                    place.when().map(when -> when.in(known) == Truth.TRUE).orElse(true);
            if (here
                    && !ordered.containsKey(id)
                    && (raising.containsKey(id) || steering.contains(id))
                    && !setAside.contains(id)
                    && askable(finding, known)
                    && heldBackBy(id, assessment).isEmpty()) {
                ordered.put(
                        id,
                        new Suggestion(
                                id,
                                Stage.DANGER,
                                List.copyOf(raising.getOrDefault(id, Set.of())),
                                place.note(),
                                List.of(),
                                0,
                                0,
                                0,
                                cost(finding),
                                0));
            }
        }
        return List.copyOf(ordered.values());
    }

    /** Not settled, and its gate is not known to be shut. */
    private static boolean askable(FindingDefinition finding, Observations known) {
        return unanswered(finding, known)
                && finding.onlyIf().map(gate -> gate.in(known) != Truth.FALSE).orElse(true);
    }

    /** Not settled, and some side it is to be answered for has no answer yet. */
    private static boolean unanswered(FindingDefinition finding, Observations known) {
        if (known.isKnown(finding.id())) {
            return false;
        }
        Optional<Recorded> recorded = known.recorded(finding.id());
        return recorded.isEmpty()
                || sides(finding, known).stream()
                        .anyMatch(side -> recorded.get().on(side).isEmpty());
    }

    /** The sides a finding is to be answered for: those that hurt, both where they are compared; none for the person. */
    static List<Side> sides(FindingDefinition finding, Observations known) {
        if (!finding.perSide()) {
            return List.of();
        }
        boolean compared = known.catalogue().comparedBetweenSides().contains(finding.id());
        if (compared && known.side() != Side.BOTH) {
            return List.of(known.side(), known.side().other());
        }
        return known.side().each();
    }

    private Set<String> free(
            Set<String> wanted,
            Observations known,
            Assessment assessment,
            Set<String> setAside,
            Map<String, List<String>> held) {
        Set<String> free = new LinkedHashSet<>();
        for (String id : wanted) {
            if (setAside.contains(id)
                    || !unanswered(knowledge.catalogue().finding(id).orElseThrow(), known)) {
                continue;
            }
            List<String> holding = heldBackBy(id, assessment);
            if (holding.isEmpty()) {
                free.add(id);
            } else {
                held.put(id, holding);
            }
        }
        return free;
    }

    /** With an emergency nothing is gained by telling candidates apart. */
    private static boolean worthSeparating(Assessment assessment) {
        return assessment.urgency().filter(level -> level == Urgency.EMERGENCY).isEmpty();
    }

    /** Who leads decides most of what is done next. */
    private static boolean couldChangeTheLead(Outlook now, Suggestion suggestion) {
        return suggestion.possible().stream()
                .anyMatch(one -> !one.then().leading().equals(now.leading()));
    }

    private static Set<String> settling(Assessment assessment) {
        Set<String> settling = new LinkedHashSet<>();
        List<List<String>> lists = assessment.candidates().stream()
                .filter(candidate -> candidate.standing() != CandidateResult.Standing.UNLIKELY)
                .map(CandidateResult::settle)
                .toList();
        int longest = lists.stream().mapToInt(List::size).max().orElse(0);
        for (int i = 0; i < longest; i++) {
            for (List<String> list : lists) {
                if (i < list.size()) {
                    settling.add(list.get(i));
                }
            }
        }
        return settling;
    }

    private List<Suggestion> evaluate(Probe probe, Set<String> ids, Stage stage, Map<String, Set<String>> asked) {
        List<Suggestion> ranked = new ArrayList<>();
        int evaluated = 0;
        for (String id : ids) {
            FindingDefinition finding = knowledge.catalogue().finding(id).orElseThrow();
            List<String> flags = List.copyOf(asked.getOrDefault(id, Set.of()));
            evaluated += answers.of(finding).size();
            ranked.add(
                    evaluated <= MOST_ANSWERS || ranked.isEmpty()
                            ? evaluate(probe, finding, stage, flags, "")
                            : new Suggestion(id, stage, flags, "", List.of(), 0, 0, 0, cost(finding), 0));
        }
        ranked.sort(Comparator.comparingDouble((Suggestion one) -> -one.value()).thenComparing(Suggestion::finding));
        return ranked;
    }

    private Suggestion evaluate(Probe probe, FindingDefinition finding, Stage stage, List<String> flags, String note) {
        Outlook now = probe.now();
        Observations known = probe.observations();
        List<Suggestion.Possible> possible = new ArrayList<>();
        double urgency = 0;
        double closing = 0;
        double candidates = 0;
        List<Answer> all = answers.of(finding);
        for (Answer answer : all) {
            double chance = chances.of(finding, answer, all.size(), now, place(finding.id(), known));
            Outlook then = probe.given(finding.id(), PossibleAnswers.recorded(finding, known.side(), answer));
            possible.add(new Suggestion.Possible(answer, chance, then));
            urgency += chance * Math.abs(step(then) - step(now));
            closing += now.open().isEmpty()
                    ? 0
                    : chance
                            * now.open().stream()
                                    .filter(flag -> !then.open().contains(flag))
                                    .count()
                            / now.open().size();
            candidates += chance * now.candidatesMoved(then);
        }
        double seconds = cost(finding);
        double gain = urgency
                + closing * knowledge.settings().value("intake-closing-weight")
                + candidates * knowledge.settings().value("intake-candidate-weight");
        return new Suggestion(
                finding.id(),
                stage,
                flags,
                note,
                List.copyOf(possible),
                urgency,
                closing,
                candidates,
                seconds,
                gain * 60 / seconds);
    }

    private Optional<IntakeTables.Place> place(String finding, Observations known) {
        return knowledge.intake().screen().stream()
                .filter(place -> place.finding().equals(finding)
                        && place.when()
                                .map(when -> when.in(known) == Truth.TRUE)
                                .orElse(true))
                .findFirst();
    }

    /** Steps on the ladder; nothing raised counts as none. */
    private static int step(Outlook outlook) {
        return outlook.urgency().map(Urgency::ordinal).orElse(0);
    }

    private double cost(FindingDefinition finding) {
        return knowledge.settings().value("intake-reading-seconds")
                + finding.seconds()
                + (finding.equipment().isEmpty() ? 0 : knowledge.settings().value("intake-equipment-seconds"))
                + (finding.provocative() ? knowledge.settings().value("intake-pain-seconds") : 0);
    }
}
