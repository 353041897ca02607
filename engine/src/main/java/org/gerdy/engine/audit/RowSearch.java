package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Expression;

/**
 * Looks through the answers that red flag rows rest on for some under which a slip makes a row stand otherwise: all of them
 * where there are few enough, a fixed sample where there are not.
 */
final class RowSearch {
    private static final long EVERY = 1_000_000;
    private static final long SAMPLE = 300_000;
    private static final long QUICK = 3_000;
    private static final double MOST_LEFT = 0.8;

    private final KnowledgeBase knowledge;
    private final Reading reading;
    private final ClashFinder clashes;

    RowSearch(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reading = new Reading(knowledge);
        this.clashes = new ClashFinder(knowledge.terms());
    }

    /**
     * What a search came to.
     *
     * @param telling answers under which a row stands otherwise
     * @param visited how many combinations were looked at
     * @param everywhere whether those were all there are
     */
    record Found(Optional<Map<String, Recorded>> telling, long visited, boolean everywhere) {
        /** Whether no answers can tell the slip by a row. */
        boolean alike() {
            return everywhere && telling.isEmpty();
        }
    }

    /** Searches every row this slip can move. */
    Found search(Mutant mutant) {
        KnowledgeBase slipped = mutant.variant().get();
        long visited = 0;
        boolean everywhere = true;
        for (RedFlagRow row : touched(slipped)) {
            Found found = search(row, slipped, mutant);
            if (found.telling().isPresent()) {
                return found;
            }
            visited += found.visited();
            everywhere &= found.everywhere();
        }
        return new Found(Optional.empty(), visited, everywhere);
    }

    private Found search(RedFlagRow row, KnowledgeBase slipped, Mutant mutant) {
        RowDecision now = new RowDecision(knowledge, row);
        RowDecision then = new RowDecision(slipped, row(slipped, row.id()));
        List<Expression> conditions = new ArrayList<>(reading.ofRow(row.id()));
        conditions.addAll(mutant.conditions());
        AnswerSpace space = new AnswerSpace(knowledge.catalogue(), conditions)
                .and(row.needs())
                .and(mutant.needs());
        Combinations combinations = new Combinations(space);
        boolean everywhere = space.combinations() <= EVERY;
        Random random = new Random(row.id().hashCode());
        // Most slips are told within a few draws.
        Stream<Map<String, Recorded>> drawn = LongStream.range(0, everywhere ? QUICK : SAMPLE)
                .mapToObj(ignored -> combinations.drawn(random, random.nextDouble() * MOST_LEFT));
        Stream<Map<String, Recorded>> all = LongStream.range(0, everywhere ? (long) space.combinations() : 0)
                .mapToObj(combinations::at);
        return new Found(
                Stream.concat(drawn, all)
                        .filter(answers -> moves(now, then, slipped, answers))
                        .findFirst(),
                everywhere ? (long) space.combinations() : SAMPLE,
                everywhere);
    }

    /** Whether the row is raised at its level, open or neither under one and not under the other. */
    private boolean moves(RowDecision now, RowDecision then, KnowledgeBase slipped, Map<String, Recorded> answers) {
        Observations observations = Observations.of(knowledge.catalogue(), Side.LEFT, answers);
        Observations under = slipped.catalogue() == knowledge.catalogue()
                ? observations
                : Observations.of(slipped.catalogue(), Side.LEFT, answers);
        return !stands(now, observations).equals(stands(then, under))
                && clashes.clashes(observations).isEmpty();
    }

    /** The word for how the row stands: its level where raised, open, or nothing. */
    private static String stands(RowDecision decision, Observations observations) {
        return switch (decision.state(observations)) {
            case RAISED -> decision.row().urgency().word();
            case OPEN -> "open";
            case CLEARED, NOT_APPLICABLE, NOT_TRIGGERED -> "";
        };
    }

    /** The rows that are not written alike in both, or rest on a computed finding that is not. */
    private List<RedFlagRow> touched(KnowledgeBase slipped) {
        Set<String> rows = new LinkedHashSet<>();
        slipped.catalogue().computed().stream()
                .filter(one -> !knowledge.catalogue().computed(one.id()).equals(Optional.of(one)))
                .forEach(one -> rows.addAll(reading.rowsReading(one.id())));
        return knowledge.redFlags().stream()
                .filter(row -> rows.contains(row.id())
                        || !row.equals(row(slipped, row.id()))
                        || !new RowDecision(knowledge, row).rules().equals(new RowDecision(slipped, row).rules()))
                .toList();
    }

    private static RedFlagRow row(KnowledgeBase knowledge, String id) {
        return knowledge.redFlags().stream()
                .filter(row -> row.id().equals(id))
                .findFirst()
                .orElseThrow();
    }
}
