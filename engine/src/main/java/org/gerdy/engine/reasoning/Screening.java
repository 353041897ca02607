package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.RedFlag;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Urgency;

/** Decides each red flag: raised by a rule, open for want of an answer, or cleared and why. */
final class Screening {
    private final KnowledgeBase knowledge;
    private final Reasons reasons;

    Screening(KnowledgeBase knowledge, Reasons reasons) {
        this.knowledge = knowledge;
        this.reasons = reasons;
    }

    /** Every flag, in table order. */
    List<Flag> decide(Observations observations, Collection<RedFlag> raised) {
        Map<String, List<String>> rulesByRow = new HashMap<>();
        for (RedFlag flag : raised) {
            rulesByRow.computeIfAbsent(flag.row(), ignored -> new ArrayList<>()).add(flag.rule());
        }
        List<Flag> flags = new ArrayList<>();
        knowledge.rowsByFlag().forEach((id, rows) -> flags.add(flag(id, rows, observations, rulesByRow)));
        return flags;
    }

    private Flag flag(
            String id, List<RedFlagRow> rows, Observations observations, Map<String, List<String>> rulesByRow) {
        List<Flag.Row> decided = new ArrayList<>();
        for (RedFlagRow row : rows) {
            decided.add(decide(row, observations, rulesByRow.getOrDefault(row.id(), List.of())));
        }
        Optional<Flag.Row> highest = decided.stream()
                .filter(row -> row.state() == FlagState.RAISED)
                .reduce((a, b) -> b.urgency().compareTo(a.urgency()) > 0 ? b : a);
        List<Flag.Row> open = decided.stream()
                .filter(row -> row.state() == FlagState.OPEN
                        && highest.map(top -> row.urgency().compareTo(top.urgency()) > 0)
                                .orElse(true))
                .toList();
        Set<String> ask = new LinkedHashSet<>();
        open.forEach(row -> ask.addAll(row.ask()));
        Optional<Urgency> couldBecome = open.stream().map(Flag.Row::urgency).max(Urgency::compareTo);
        FlagState state = highest.isPresent() ? FlagState.RAISED : open.isEmpty() ? FlagState.CLEARED : FlagState.OPEN;
        return new Flag(
                id,
                highest.or(() -> decided.stream().findFirst())
                        .map(Flag.Row::label)
                        .orElse(id),
                state,
                highest,
                List.copyOf(decided),
                !open.isEmpty(),
                List.copyOf(ask),
                couldBecome);
    }

    private Flag.Row decide(RedFlagRow row, Observations observations, List<String> rules) {
        if (!rules.isEmpty()) {
            List<Reason> because = rules.stream()
                    .sorted()
                    .map(rule -> reasons.of(rule, observations))
                    .toList();
            return row(row, FlagState.RAISED, because, List.of());
        }
        FlagState state = RowState.ofUnraised(row, observations);
        return row(row, state, List.of(), state == FlagState.OPEN ? ask(row, observations) : List.of());
    }

    /** What an open row asks for: first its entry question, then whether it is about this patient, then what it needs. */
    private static List<String> ask(RedFlagRow row, Observations observations) {
        for (Optional<Expression> gate : List.of(row.trigger(), row.appliesIf())) {
            if (gate.isPresent() && gate.get().in(observations) == Truth.UNKNOWN) {
                return observations.missing(gate.get());
            }
        }
        Set<String> missing = new LinkedHashSet<>();
        row.needs().forEach(need -> missing.addAll(observations.missing(need)));
        return List.copyOf(missing);
    }

    private static Flag.Row row(RedFlagRow row, FlagState state, List<Reason> reasons, List<String> ask) {
        return new Flag.Row(
                row.id(), row.label(), state, row.urgency(), row.within(), row.action(), row.rationale(), reasons, ask);
    }
}
