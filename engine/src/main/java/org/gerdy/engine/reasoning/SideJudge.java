package org.gerdy.engine.reasoning;

import static org.gerdy.engine.logic.Comparison.ABOVE;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorDefinition.Direction;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.PairedLength;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.measure.SideDifference;

/** Judges what is found by holding one side against the other. */
final class SideJudge {
    private final FactorFacts facts;
    private final FactorDefinition factor;
    private final FactorDraft draft;

    SideJudge(FactorFacts facts, FactorDefinition factor, FactorDraft draft) {
        this.facts = facts;
        this.factor = factor;
        this.draft = draft;
    }

    void difference() {
        for (String id : factor.reads()) {
            Optional<MeasureDefinition> measure = facts.tables.measure(id);
            Optional<Measured> measured = facts.measured(id);
            if (measure.isPresent() && measured.isPresent()) {
                difference(new Sides(measure.get(), measured.get()));
                return;
            }
        }
        draft.because("Not measured.");
    }

    private void difference(Sides sides) {
        draft.seen(sides.text()).pair(sides.marks(facts.side()), sides.measure.unit());
        for (Norm norm : facts.norms(factor, sides.measure.id())) {
            draft.norm(norm, sides.affected(facts.side(), factor.direction()), facts.age());
            break;
        }
        Optional<SideDifference> pair = sides.difference(facts.side(), factor.direction());
        if (pair.isEmpty()) {
            draft.because("Only one side was measured; nothing to compare it with.", sides.read());
            return;
        }
        Optional<ErrorRow> row = error(sides.measure.id());
        OptionalDouble detectable = row.map(ErrorRow::detectable).orElse(OptionalDouble.empty());
        double difference = pair.get().difference();
        double extent = factor.direction().extent(difference);
        draft.value(difference, factor.unit()).error(detectable);
        draft.because(
                "Painful side minus the other: " + Plain.signed(difference) + " " + factor.unit()
                        + (facts.side() == Side.BOTH
                                ? " (both hurt, so the further side is held against the other)"
                                : "")
                        + ".",
                sides.read());
        sides.notes().forEach(draft::because);
        draft.reliability(row);
        draft.verdict(verdict(extent, detectable));
        if (detectable.isEmpty()) {
            draft.because("How far the measure strays is not known, so a difference is never more than borderline.");
        } else if (ABOVE.holds(extent, factor.borderlineBeyond().orElse(0))
                && !ABOVE.holds(extent, detectable.getAsDouble())) {
            draft.because("The difference lies inside the error of the measurement.");
        }
    }

    /** The error that holds for this very measure; the factor's own row may be of another. */
    private Optional<ErrorRow> error(String measure) {
        Optional<ErrorRow> own = factor.error().map(id -> facts.tables.errors().get(id));
        if (own.isPresent() && own.get().measure().equals(measure)) {
            return own;
        }
        return facts.tables.errorsOf(measure).stream()
                .filter(row ->
                        row.unit().equals(factor.unit()) && row.detectable().isPresent())
                .findFirst();
    }

    private FactorVerdict verdict(double extent, OptionalDouble detectable) {
        boolean counted = detectable.isPresent()
                && factor.contributesBeyond().isPresent()
                && ABOVE.holds(extent, Math.max(factor.contributesBeyond().getAsDouble(), detectable.getAsDouble()));
        if (counted) {
            return FactorVerdict.CONTRIBUTES;
        }
        return ABOVE.holds(extent, factor.borderlineBeyond().orElse(0))
                ? FactorVerdict.BORDERLINE
                : FactorVerdict.NOT_FOUND;
    }

    /** Lengths by tape, from the trunk and by blocks, in the order the factor reads them. */
    void pairedLength() {
        List<Reason.Read> reads = new ArrayList<>();
        List<OptionalDouble> longer = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            longer.add(longer(factor.reads().get(i), i == 2, reads));
        }
        PairedLength lengths = new PairedLength(longer.get(0), longer.get(1), longer.get(2));
        double least = factor.borderlineBeyond().orElse(0);
        PairedLength.Pattern pattern = lengths.pattern(least);
        draft.seen(String.join(
                "; ", reads.stream().map(read -> read.id() + " " + read.value()).toList()));
        if (pattern == PairedLength.Pattern.NOT_MEASURED) {
            draft.because("Not measured on both sides.");
            return;
        }
        OptionalDouble shown =
                longer.get(2).isPresent() ? longer.get(2) : longer.get(0).isPresent() ? longer.get(0) : longer.get(1);
        draft.value(facts.side() == Side.BOTH ? Math.abs(shown.orElseThrow()) : shown.orElseThrow(), factor.unit());
        Optional<ErrorRow> row = factor.error().map(id -> facts.tables.errors().get(id));
        OptionalDouble detectable = row.map(ErrorRow::detectable).orElse(OptionalDouble.empty());
        draft.error(detectable);
        draft.because(told(pattern, lengths), reads.toArray(Reason.Read[]::new));
        draft.reliability(row);
        if (longer.get(0).isPresent()) {
            draft.reliability(
                    facts.tables.errorsOf(factor.reads().get(0)).stream().findFirst());
        }
        for (String id : factor.norms()) {
            Norm norm = facts.tables.norms().get(id);
            if (norm != null) {
                draft.norm(norm, OptionalDouble.empty(), facts.age());
            }
        }
        draft.verdict(length(pattern, longer.get(2), detectable));
    }

    /**
     * Painful side minus the other; a block lies under the shorter side, so its sign turns. With both painful the left is
     * held against the right, always the same way round, so that methods naming opposite sides are noticed.
     */
    private OptionalDouble longer(String id, boolean block, List<Reason.Read> reads) {
        Optional<MeasureDefinition> measure = facts.tables.measure(id);
        Optional<Measured> measured = facts.measured(id);
        if (measure.isEmpty() || measured.isEmpty()) {
            return OptionalDouble.empty();
        }
        Sides sides = new Sides(measure.get(), measured.get());
        reads.add(sides.read());
        Side painful = facts.side() == Side.BOTH ? Side.LEFT : facts.side();
        return sides.difference(painful, Direction.EITHER)
                .map(pair -> OptionalDouble.of(block ? pair.other() - pair.affected() : pair.difference()))
                .orElse(OptionalDouble.empty());
    }

    private static String told(PairedLength.Pattern pattern, PairedLength lengths) {
        return switch (pattern) {
            case NOT_MEASURED -> "Not measured.";
            case EQUAL -> "No difference that could be told from equal.";
            case METHODS_DISAGREE -> "Tape and blocks name opposite sides as the shorter; measure both again.";
            case UNCONFIRMED -> "A difference by tape, not checked by blocks.";
            case TRUE_DIFFERENCE ->
                lengths.endToEnd().isPresent()
                        ? "Tape and blocks agree: pattern of a true difference."
                        : "A difference by blocks; whether it is true or apparent needs the tape.";
            case APPARENT_ONLY ->
                "True length by tape equal, yet unequal from the trunk or on blocks: pattern of an apparent difference.";
        };
    }

    private FactorVerdict length(PairedLength.Pattern pattern, OptionalDouble blocks, OptionalDouble detectable) {
        return switch (pattern) {
            case NOT_MEASURED, METHODS_DISAGREE -> FactorVerdict.NOT_MEASURED;
            case EQUAL -> FactorVerdict.NOT_FOUND;
            case UNCONFIRMED, APPARENT_ONLY -> FactorVerdict.BORDERLINE;
            case TRUE_DIFFERENCE ->
                blocks.isPresent() ? verdict(Math.abs(blocks.getAsDouble()), detectable) : FactorVerdict.BORDERLINE;
        };
    }

    /** Observations that must all hold on one side: {@code measure=word}, or {@code measure=shorter} for a length. */
    void pattern() {
        List<Reason.Read> reads = new ArrayList<>();
        List<Side> holding = new ArrayList<>(List.of(Side.LEFT, Side.RIGHT));
        for (String item : factor.reads()) {
            String[] pair = item.split("=", 2);
            Optional<MeasureDefinition> measure = facts.tables.measure(pair[0]);
            Optional<Measured> measured = facts.measured(pair[0]);
            if (measure.isEmpty()
                    || measured.isEmpty()
                    || measured.get().left().isEmpty()
                    || measured.get().right().isEmpty()) {
                draft.because("Not measured on both sides: " + pair[0] + ".");
                return;
            }
            Sides sides = new Sides(measure.get(), measured.get());
            reads.add(sides.read());
            holding.removeIf(side -> !holds(sides, side, pair[1]));
        }
        draft.seen(String.join(
                "; ", reads.stream().map(read -> read.id() + " " + read.value()).toList()));
        draft.because(
                holding.isEmpty()
                        ? "The signs do not go together on one side."
                        : "The signs go together on the " + holding.get(0).word()
                                + " side. Common practice, no source; a pattern to check and no more.",
                reads.toArray(Reason.Read[]::new));
        draft.reliability(factor.error().map(id -> facts.tables.errors().get(id)));
        draft.verdict(holding.isEmpty() ? FactorVerdict.NOT_FOUND : FactorVerdict.BORDERLINE);
    }

    private boolean holds(Sides sides, Side side, String word) {
        if (sides.measure.kind() == MeasureKind.CHOICE) {
            Optional<Readings> readings = side == Side.LEFT ? sides.measured.left() : sides.measured.right();
            return readings.map(Readings::word).orElse("").equals(word);
        }
        double difference =
                sides.on(side).orElse(Double.NaN) - sides.on(side.other()).orElse(Double.NaN);
        double least = factor.borderlineBeyond().orElse(0);
        return word.equals("shorter")
                ? ABOVE.holds(-difference, least)
                : word.equals("longer") && ABOVE.holds(difference, least);
    }
}
