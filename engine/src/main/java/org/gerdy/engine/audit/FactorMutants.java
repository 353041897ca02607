package org.gerdy.engine.audit;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorDefinition.Direction;
import org.gerdy.engine.measure.FactorDefinition.Method;
import org.gerdy.engine.measure.FactorVerdict;

/**
 * Single slips in how a contributing factor is judged: cut-offs, direction, ceiling, the error it must exceed, words,
 * what it reads, its condition. A factor that has one verdict whatever it reads can only lose its ceiling or its reading.
 */
final class FactorMutants {
    private final KnowledgeBase knowledge;
    private final List<Mutant> all;

    private FactorMutants(KnowledgeBase knowledge, List<Mutant> all) {
        this.knowledge = knowledge;
        this.all = all;
    }

    /** Adds every slip in the table of factors. */
    static void add(KnowledgeBase knowledge, List<Mutant> all) {
        FactorMutants mutants = new FactorMutants(knowledge, all);
        knowledge.factors().factors().forEach(mutants::factor);
    }

    private void factor(FactorDefinition factor) {
        if (factor.method() == Method.LABORATORY || factor.reads().isEmpty()) {
            // Shown from studies and never judged.
            return;
        }
        for (FactorVerdict ceiling : FactorVerdict.values()) {
            if (Math.abs(ceiling.compareTo(factor.ceiling())) == 1 && reaches(factor, ceiling)) {
                slip(factor, "ceiling moved to " + ceiling.word(), slip -> slip.ceiling = ceiling);
            }
        }
        // Paired lengths are read by position; the others by preference, or all that go together.
        boolean several = factor.reads().size() > 1 && factor.method() != Method.PAIRED_LENGTH;
        for (int i = 0; several && i < factor.reads().size(); i++) {
            List<String> fewer = ExpressionMutants.without(factor.reads(), i);
            slip(factor, "reading dropped: " + factor.reads().get(i), slip -> slip.reads = fewer);
        }
        if (factor.ceiling().compareTo(FactorVerdict.BORDERLINE) >= 0) {
            judging(factor);
        }
    }

    private void judging(FactorDefinition factor) {
        for (double moved : moved(factor.borderlineBeyond())) {
            slip(factor, "borderline moved to " + moved, slip -> slip.borderlineBeyond = OptionalDouble.of(moved));
        }
        if (factor.ceiling() == FactorVerdict.CONTRIBUTES
                && factor.contributesBeyond().isPresent()) {
            for (double moved : moved(factor.contributesBeyond())) {
                slip(factor, "cut-off moved to " + moved, slip -> slip.contributesBeyond = OptionalDouble.of(moved));
            }
            slip(factor, "error forgotten", slip -> slip.error = Optional.empty());
        }
        switch (factor.method()) {
            case SIDE_DIFFERENCE, CUT_OFF, LOAD -> {
                Direction flipped = factor.direction() == Direction.LOWER ? Direction.HIGHER : Direction.LOWER;
                slip(factor, "direction flipped", slip -> slip.direction = flipped);
            }
            case DESCRIBED, CHOICE -> {
                for (int i = 0; i < factor.words().size(); i++) {
                    List<String> fewer = ExpressionMutants.without(factor.words(), i);
                    slip(factor, "word dropped: " + factor.words().get(i), slip -> slip.words = fewer);
                }
            }
            case FINDING -> {
                for (ExpressionMutants.Changed changed :
                        ExpressionMutants.of(factor.presentWhen().orElseThrow())) {
                    slip(factor, changed.change(), slip -> slip.presentWhen = Optional.of(changed.condition()));
                }
            }
            case SYMMETRY, PAIRED_LENGTH, PATTERN, LABORATORY -> {}
        }
    }

    /** Whether a verdict can reach this ceiling at all. */
    private boolean reaches(FactorDefinition factor, FactorVerdict ceiling) {
        if (ceiling.compareTo(factor.ceiling()) < 0) {
            return ceiling != FactorVerdict.NOT_MEASURED;
        }
        return switch (factor.method()) {
            case CHOICE -> !factor.words().isEmpty();
            case FINDING -> true;
            case PATTERN -> ceiling == FactorVerdict.BORDERLINE;
            case DESCRIBED -> ceiling == FactorVerdict.BORDERLINE && outOfTheOrdinary(factor);
            default ->
                ceiling == FactorVerdict.BORDERLINE
                        ? factor.borderlineBeyond().isPresent()
                        : factor.contributesBeyond().isPresent()
                                && factor.error().isPresent();
        };
    }

    /** Whether some class of what is measured, or some difference of the sides, is not ordinary. */
    private boolean outOfTheOrdinary(FactorDefinition factor) {
        return factor.borderlineBeyond().isPresent()
                || knowledge.factors().bands().stream()
                        .anyMatch(band -> factor.reads().contains(band.measure())
                                && !factor.words().contains(band.name()));
    }

    private static double[] moved(OptionalDouble cutOff) {
        return cutOff.isPresent() ? ExpressionMutants.moved(cutOff.getAsDouble()) : new double[0];
    }

    private void slip(FactorDefinition factor, String change, Consumer<Slip> slipped) {
        Slip slip = new Slip(factor);
        slipped.accept(slip);
        FactorDefinition changed = slip.factor();
        all.add(new Mutant(
                Mutant.Group.FACTORS,
                "factor " + factor.id(),
                change,
                () -> KnowledgeVariant.factor(knowledge, changed),
                look -> look.measured(factor.id()),
                factor.presentWhen().map(List::of).orElse(List.of()),
                factor.reads().stream().filter(knowledge.catalogue()::knows).toList()));
    }

    /** One factor, to change one part of. */
    private static final class Slip {
        private final FactorDefinition of;
        private List<String> reads;
        private Direction direction;
        private OptionalDouble borderlineBeyond;
        private OptionalDouble contributesBeyond;
        private Optional<String> error;
        private Optional<Expression> presentWhen;
        private List<String> words;
        private FactorVerdict ceiling;

        Slip(FactorDefinition of) {
            this.of = of;
            reads = of.reads();
            direction = of.direction();
            borderlineBeyond = of.borderlineBeyond();
            contributesBeyond = of.contributesBeyond();
            error = of.error();
            presentWhen = of.presentWhen();
            words = of.words();
            ceiling = of.ceiling();
        }

        FactorDefinition factor() {
            return new FactorDefinition(
                    of.id(),
                    of.label(),
                    of.domain(),
                    of.method(),
                    reads,
                    direction,
                    of.unit(),
                    borderlineBeyond,
                    contributesBeyond,
                    error,
                    of.norms(),
                    presentWhen,
                    words,
                    ceiling,
                    of.tie(),
                    of.association(),
                    of.belief(),
                    of.advice(),
                    of.sources(),
                    of.basis(),
                    of.note());
        }
    }
}
