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
        Truth applies = row.appliesIf().map(gate -> gate.in(observations)).orElse(Truth.TRUE);
        if (applies == Truth.FALSE) {
            return row(row, FlagState.NOT_APPLICABLE, List.of(), List.of());
        }
        Truth triggered = row.trigger().map(trigger -> trigger.in(observations)).orElse(Truth.TRUE);
        if (triggered == Truth.FALSE) {
            return row(row, FlagState.NOT_TRIGGERED, List.of(), List.of());
        }
        if (row.needs().isEmpty()) {
            // Raises when its fact happens to be recorded; asks for nothing and never holds the screen open.
            return row(row, FlagState.CLEARED, List.of(), List.of());
        }
        if (triggered == Truth.UNKNOWN) {
            return row(
                    row,
                    FlagState.OPEN,
                    List.of(),
                    observations.missing(row.trigger().orElseThrow()));
        }
        if (applies == Truth.UNKNOWN) {
            return row(
                    row,
                    FlagState.OPEN,
                    List.of(),
                    observations.missing(row.appliesIf().orElseThrow()));
        }
        Set<String> missing = new LinkedHashSet<>();
        for (String need : row.needs()) {
            if (!observations.isKnown(need)) {
                missing.addAll(observations.missing(need));
            }
        }
        return row(row, missing.isEmpty() ? FlagState.CLEARED : FlagState.OPEN, List.of(), List.copyOf(missing));
    }

    private static Flag.Row row(RedFlagRow row, FlagState state, List<Reason> reasons, List<String> ask) {
        return new Flag.Row(
                row.id(), row.label(), state, row.urgency(), row.within(), row.action(), row.rationale(), reasons, ask);
    }
}
