package org.gerdy.engine.reasoning;

import static org.gerdy.engine.logic.Comparison.ABOVE;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorDefinition.Direction;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.MeasurementError;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.measure.SideDifference;
import org.gerdy.engine.measure.Strength;

/** Judges a force by the painful side over the other; without a dynamometer by grade or by the examiner's word. */
final class SymmetryJudge {
    private static final double PERCENT = 100;
    private static final String ASYMMETRY = "percent asymmetry";

    private final FactorFacts facts;
    private final FactorDefinition factor;
    private final FactorDraft draft;

    SymmetryJudge(FactorFacts facts, FactorDefinition factor, FactorDraft draft) {
        this.facts = facts;
        this.factor = factor;
        this.draft = draft;
    }

    void judge() {
        for (String id : factor.reads()) {
            Optional<MeasureDefinition> measure = facts.tables.measure(id);
            Optional<Measured> measured = facts.measured(id);
            if (measure.isPresent() && measured.isPresent()) {
                if (measure.get().kind() == MeasureKind.GRADE) {
                    grade(measure.get(), measured.get());
                } else {
                    force(new Sides(measure.get(), measured.get()));
                }
                return;
            }
            if (measure.isEmpty() && word(id)) {
                return;
            }
        }
        draft.because("Not measured.");
    }

    private void force(Sides sides) {
        draft.seen(sides.text()).pair(sides.marks(facts.side()), sides.measure.unit());
        Optional<Levers> levers = levers(sides.measured);
        Optional<SideDifference> newtons = sides.difference(facts.side(), Direction.LOWER);
        if (newtons.isEmpty()) {
            draft.because("Only one side was measured; nothing to compare it with.", sides.read());
            scaled(sides);
            return;
        }
        if (sides.pain() >= facts.tables.settings().painStops()) {
            draft.because(
                    "Limited by pain of " + Plain.brief(sides.pain())
                            + " of 10 during the test: the value says nothing of strength.",
                    sides.read());
            return;
        }
        if (levers.isEmpty()) {
            draft.because("The lever was taken on one side only; the two sides cannot be compared.", sides.read());
            return;
        }
        if (newtons.get().other() <= 0 || newtons.get().affected() < 0) {
            draft.because("The other side reads zero, so there is no symmetry; measure again.", sides.read());
            return;
        }
        symmetry(sides, levers.get());
    }

    private void symmetry(Sides sides, Levers levers) {
        List<Double> deficits = new ArrayList<>();
        boolean otherWay = false;
        for (Measured earlier : facts.earlier(sides.measure.id())) {
            OptionalDouble deficit = earlier.setUp().equals(sides.measured.setUp())
                    ? deficit(new Sides(sides.measure, earlier))
                    : OptionalDouble.empty();
            if (deficit.isPresent()) {
                deficits.add(deficit.getAsDouble());
            } else {
                otherWay = true;
            }
        }
        deficit(sides).ifPresent(deficits::add);
        int days = deficits.size();
        double deficit =
                deficits.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
        Optional<ErrorRow> row = factor.error().map(id -> facts.tables.errors().get(id));
        OptionalDouble detectable = row.map(ErrorRow::detectable).orElse(OptionalDouble.empty());
        OptionalDouble error = detectable.isPresent()
                ? OptionalDouble.of(MeasurementError.overDays(detectable.getAsDouble(), days))
                : detectable;
        draft.value(PERCENT - deficit, factor.unit()).error(error);
        draft.because(
                "The painful side reaches " + Plain.brief(PERCENT - deficit) + " % of the other"
                        + (levers.known() ? " by torque" : " by force")
                        + (days > 1 ? ", mean of " + days + " days" : "")
                        + (facts.side() == Side.BOTH
                                ? "; both sides hurt, so the weaker is held against the stronger"
                                : "")
                        + ".",
                sides.read());
        if (otherWay) {
            draft.because("An earlier value was taken another way, or was not usable, and is not compared.");
        }
        sides.notes().forEach(draft::because);
        draft.verdict(verdict(deficit, error));
        draft.reliability(row);
        scaled(sides);
    }

    /** Beyond the cut-off and the error it contributes; on an edge the less alarming side is taken. */
    private FactorVerdict verdict(double deficit, OptionalDouble error) {
        boolean counted = error.isPresent()
                && factor.contributesBeyond().isPresent()
                && ABOVE.holds(deficit, Math.max(factor.contributesBeyond().getAsDouble(), error.getAsDouble()));
        if (counted) {
            return FactorVerdict.CONTRIBUTES;
        }
        return ABOVE.holds(deficit, factor.borderlineBeyond().orElse(0))
                ? FactorVerdict.BORDERLINE
                : FactorVerdict.NOT_FOUND;
    }

    private OptionalDouble deficit(Sides sides) {
        Optional<SideDifference> newtons = sides.difference(facts.side(), Direction.LOWER);
        Optional<Levers> levers = levers(sides.measured);
        if (newtons.isEmpty()
                || levers.isEmpty()
                || sides.pain() >= facts.tables.settings().painStops()) {
            return OptionalDouble.empty();
        }
        if (!levers.get().known()) {
            return newtons.get().deficit();
        }
        double left = sides.on(Side.LEFT).orElseThrow() * levers.get().left();
        double right = sides.on(Side.RIGHT).orElseThrow() * levers.get().right();
        return switch (facts.side()) {
            case LEFT -> new SideDifference(left, right).deficit();
            case RIGHT -> new SideDifference(right, left).deficit();
            case BOTH -> new SideDifference(Math.min(left, right), Math.max(left, right)).deficit();
        };
    }

    private record Levers(boolean known, double left, double right) {}

    /** Both levers, or neither; empty when only one side has its own. */
    private static Optional<Levers> levers(Measured measured) {
        OptionalDouble left = measured.left().map(Readings::leverMetres).orElse(OptionalDouble.empty());
        OptionalDouble right = measured.right().map(Readings::leverMetres).orElse(OptionalDouble.empty());
        if (left.isPresent() != right.isPresent()) {
            return Optional.empty();
        }
        return Optional.of(new Levers(left.isPresent(), left.orElse(1), right.orElse(1)));
    }

    /** The painful side's strength scaled to the person, against the norms taken the same way. */
    private void scaled(Sides sides) {
        OptionalDouble newtons = sides.affected(facts.side(), factor.direction());
        if (newtons.isEmpty() || !(newtons.getAsDouble() > 0)) {
            return;
        }
        Optional<Levers> levers = levers(sides.measured);
        boolean right = facts.side() == Side.RIGHT
                || (facts.side() == Side.BOTH && sides.on(Side.RIGHT).equals(newtons));
        Strength strength = strength(newtons.getAsDouble(), levers, right ? Side.RIGHT : Side.LEFT);
        List<String> scales = new ArrayList<>();
        for (String scale : List.of("Nm", "Nm/kg", "%BW")) {
            strength.in(scale)
                    .flatMap(v -> v.isPresent() ? Optional.of(v.getAsDouble()) : Optional.empty())
                    .ifPresent(v -> scales.add(Plain.brief(v) + " " + scale));
        }
        if (!scales.isEmpty()) {
            draft.because("Scaled, painful side: " + String.join(", ", scales) + ".");
        }
        boolean compared = false;
        boolean otherSetUp = false;
        for (Norm norm : facts.norms(factor, sides.measure.id())) {
            if (norm.unit().equals(ASYMMETRY)) {
                draft.norm(norm, OptionalDouble.empty(), facts.age());
            } else if (!norm.sameSetUp(sides.measured.setUp())) {
                otherSetUp = true;
            } else if (!compared) {
                OptionalDouble value = strength.in(norm.unit()).orElse(OptionalDouble.empty());
                if (value.isPresent()) {
                    draft.norm(norm, value, facts.age());
                    draft.pair(
                            Sides.marks(
                                    facts.side(),
                                    strength(sides, levers, Side.LEFT, norm.unit()),
                                    strength(sides, levers, Side.RIGHT, norm.unit())),
                            norm.unit());
                    compared = true;
                }
            }
        }
        if (!compared && otherSetUp) {
            draft.because(
                    "Not held against a norm: the norms were taken another way (kind of test, position), or how this one was taken is not recorded.");
        }
    }

    private Strength strength(double newtons, Optional<Levers> levers, Side side) {
        OptionalDouble lever = levers.isPresent() && levers.get().known()
                ? OptionalDouble.of(
                        side == Side.RIGHT ? levers.get().right() : levers.get().left())
                : OptionalDouble.empty();
        return new Strength(newtons, lever, facts.mass(), facts.height());
    }

    private OptionalDouble strength(Sides sides, Optional<Levers> levers, Side side, String unit) {
        OptionalDouble newtons = sides.on(side);
        return newtons.isPresent() && newtons.getAsDouble() > 0
                ? strength(newtons.getAsDouble(), levers, side).in(unit).orElse(OptionalDouble.empty())
                : OptionalDouble.empty();
    }

    private void grade(MeasureDefinition measure, Measured measured) {
        Sides sides = new Sides(measure, measured);
        draft.seen(sides.text());
        if (measured.left().isEmpty() || measured.right().isEmpty()) {
            draft.because("Only one side was graded; nothing to compare it with.", sides.read());
            return;
        }
        int left = measure.choices().indexOf(measured.left().get().word());
        int right = measure.choices().indexOf(measured.right().get().word());
        int lower =
                switch (facts.side()) {
                    case LEFT -> right - left;
                    case RIGHT -> left - right;
                    case BOTH -> Math.abs(left - right);
                };
        draft.because(
                "Graded by hand: grades are ranks, and how far they stray is not known, so a difference is never more than borderline.",
                sides.read());
        draft.verdict(
                lower >= facts.tables.settings().gradeSteps() ? FactorVerdict.BORDERLINE : FactorVerdict.NOT_FOUND);
    }

    private boolean word(String finding) {
        Truth present = facts.observations.is(finding, "present");
        if (present == Truth.UNKNOWN || facts.observations.recorded(finding).isEmpty()) {
            return false;
        }
        String shown = facts.observations.shown(finding);
        draft.seen(shown);
        draft.because(
                "By the examiner's word, without a number: never more than borderline.",
                new Reason.Read(finding, shown));
        draft.verdict(present == Truth.TRUE ? FactorVerdict.BORDERLINE : FactorVerdict.NOT_FOUND);
        return true;
    }
}
