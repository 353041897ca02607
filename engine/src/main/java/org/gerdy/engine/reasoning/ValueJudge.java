package org.gerdy.engine.reasoning;

import static org.gerdy.engine.logic.Comparison.ABOVE;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.load.Quantity;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.measure.Band;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorDefinition.Direction;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.measure.SideDifference;

/** Judges what is found by a value or a word by itself. */
final class ValueJudge {
    private static final double PERCENT = 100;
    private static final String POINTS_BETWEEN_SIDES = "side difference";

    private final FactorFacts facts;
    private final FactorDefinition factor;
    private final FactorDraft draft;

    ValueJudge(FactorFacts facts, FactorDefinition factor, FactorDraft draft) {
        this.facts = facts;
        this.factor = factor;
        this.draft = draft;
    }

    /** A number and where it came from. */
    private record Found(MeasureDefinition measure, Optional<Sides> sides, OptionalDouble value, String text) {
        Reason.Read read() {
            return new Reason.Read(measure.id(), text);
        }
    }

    private Optional<Found> found() {
        for (String id : factor.reads()) {
            Optional<MeasureDefinition> measure = facts.tables.measure(id);
            Optional<Measured> measured = facts.measured(id);
            if (measure.isPresent() && measured.isPresent()) {
                return Optional.of(found(measure.get(), measured.get()));
            }
        }
        return Optional.empty();
    }

    private Found found(MeasureDefinition measure, Measured measured) {
        if (measured.whole().isPresent()) {
            OptionalDouble value = measure.kind() == MeasureKind.CHOICE
                    ? OptionalDouble.empty()
                    : org.gerdy.engine.measure.MeasuredValue.of(
                                    measure, measured.whole().get())
                            .value();
            String text = value.isPresent()
                    ? Plain.brief(value.getAsDouble()) + " " + measure.unit()
                    : measured.whole().get().word();
            return new Found(measure, Optional.empty(), value, text);
        }
        Sides sides = new Sides(measure, measured);
        sides.notes().forEach(draft::because);
        draft.pair(sides.marks(facts.side()), measure.unit());
        return new Found(measure, Optional.of(sides), sides.affected(facts.side(), factor.direction()), sides.text());
    }

    private void norms(Found found) {
        for (Norm norm : facts.norms(factor, found.measure().id())) {
            boolean between = norm.unit().contains(POINTS_BETWEEN_SIDES);
            if (!between
                    && norm.sameSetUp(found.sides().map(s -> s.measured.setUp()).orElse(java.util.Map.of()))) {
                draft.norm(norm, found.value(), facts.age());
                return;
            }
        }
    }

    void cutOff() {
        Optional<Found> found = found();
        if (found.isEmpty() || found.get().value().isEmpty()) {
            draft.because("Not measured.");
            return;
        }
        double value = found.get().value().getAsDouble();
        draft.seen(found.get().text()).value(value, factor.unit());
        norms(found.get());
        Optional<ErrorRow> row = factor.error().map(id -> facts.tables.errors().get(id));
        draft.reliability(row);
        draft.because(beside(value), found.get().read());
        draft.verdict(verdict(value, row.map(ErrorRow::detectable).orElse(OptionalDouble.empty())));
    }

    private String beside(double value) {
        if (factor.borderlineBeyond().isEmpty()) {
            return Plain.brief(value) + " " + factor.unit() + "; no cut-off is used.";
        }
        return Plain.brief(value) + " " + factor.unit() + " against a line of "
                + Plain.brief(factor.borderlineBeyond().getAsDouble()) + ", "
                + (factor.direction() == Direction.LOWER ? "lower" : "higher") + " counting.";
    }

    /** Beyond the line it is borderline; beyond the second line and further than the error from the first it contributes. */
    private FactorVerdict verdict(double value, OptionalDouble detectable) {
        draft.error(detectable);
        if (factor.borderlineBeyond().isEmpty()) {
            return FactorVerdict.NOT_FOUND;
        }
        double beyond =
                factor.direction().extent(value - factor.borderlineBeyond().getAsDouble());
        boolean counted = detectable.isPresent()
                && factor.contributesBeyond().isPresent()
                && ABOVE.holds(beyond, detectable.getAsDouble())
                && ABOVE.holds(
                        factor.direction()
                                .extent(value - factor.contributesBeyond().getAsDouble()),
                        0);
        if (counted) {
            return FactorVerdict.CONTRIBUTES;
        }
        return ABOVE.holds(beyond, 0) ? FactorVerdict.BORDERLINE : FactorVerdict.NOT_FOUND;
    }

    void described() {
        Optional<Found> found = found();
        if (found.isEmpty()) {
            draft.because("Not measured.");
            return;
        }
        draft.seen(found.get().text());
        if (found.get().value().isEmpty()) {
            draft.because(
                    "No value could be formed for the painful side.",
                    found.get().read());
            return;
        }
        double value = found.get().value().getAsDouble();
        draft.value(value, found.get().measure().unit());
        norms(found.get());
        draft.reliability(
                factor.error().map(id -> facts.tables.errors().get(id)).filter(row -> row.measure()
                        .equals(found.get().measure().id())));
        Optional<Band> band = facts.tables.band(found.get().measure().id(), value);
        band.ifPresent(known -> draft.because(
                "Class: " + known.name() + ". " + known.means(), found.get().read()));
        factor.words().stream()
                .findFirst()
                .flatMap(word -> facts.tables.bandNamed(found.get().measure().id(), word))
                .ifPresent(draft::ordinary);
        boolean ordinary = band.isEmpty() || factor.words().contains(band.get().name());
        Optional<SideDifference> pair =
                found.get().sides().flatMap(sides -> sides.difference(facts.side(), Direction.EITHER));
        if (pair.isPresent() && factor.borderlineBeyond().isPresent()) {
            draft.because("The sides differ by " + Plain.brief(pair.get().size()) + " " + factor.unit() + "; beyond "
                    + Plain.brief(factor.borderlineBeyond().getAsDouble()) + " is out of the ordinary.");
            ordinary &=
                    !ABOVE.holds(pair.get().size(), factor.borderlineBeyond().getAsDouble());
        }
        draft.verdict(ordinary ? FactorVerdict.NOT_FOUND : FactorVerdict.BORDERLINE);
    }

    void choice() {
        Optional<Found> found = found();
        if (found.isEmpty()) {
            draft.because("Not measured.");
            return;
        }
        draft.seen(found.get().text());
        if (found.get().measure().kind() != MeasureKind.CHOICE) {
            found.get()
                    .value()
                    .ifPresent(value -> draft.value(value, found.get().measure().unit()));
            norms(found.get());
            draft.because("Described only.", found.get().read());
            draft.verdict(FactorVerdict.NOT_FOUND);
            return;
        }
        List<String> words = words(found.get());
        if (words.isEmpty()) {
            draft.because("Not seen on the painful side.", found.get().read());
            return;
        }
        draft.reliability(factor.error().map(id -> facts.tables.errors().get(id)));
        draft.because("As observed.", found.get().read());
        draft.verdict(
                words.stream().anyMatch(factor.words()::contains)
                        ? FactorVerdict.CONTRIBUTES
                        : FactorVerdict.NOT_FOUND);
    }

    private List<String> words(Found found) {
        if (found.sides().isEmpty()) {
            return List.of(found.text());
        }
        Measured measured = found.sides().get().measured;
        return facts.side().each().stream()
                .flatMap(side -> (side == Side.LEFT ? measured.left() : measured.right()).stream())
                .map(Readings::word)
                .filter(word -> !word.isEmpty())
                .toList();
    }

    void finding() {
        Truth truth = factor.presentWhen().orElseThrow().in(facts.observations);
        Reason.Read[] reads = factor.reads().stream()
                .map(id -> new Reason.Read(id, facts.observations.shown(id)))
                .toArray(Reason.Read[]::new);
        draft.seen(String.join(
                ", ",
                java.util.Arrays.stream(reads)
                        .filter(read -> facts.observations.recorded(read.id()).isPresent())
                        .map(read -> read.id() + " " + read.value())
                        .toList()));
        boolean asked = factor.reads().stream()
                .anyMatch(id -> facts.observations.recorded(id).isPresent());
        if (truth == Truth.UNKNOWN || !asked) {
            draft.because("Not asked.", reads);
            return;
        }
        draft.because(truth == Truth.TRUE ? "As told." : "Asked, and not so.", reads);
        draft.verdict(truth == Truth.TRUE ? FactorVerdict.CONTRIBUTES : FactorVerdict.NOT_FOUND);
    }

    /** A quantity of the record; without one, two findings may be named: the amount and what it is held against. */
    void load() {
        Optional<ErrorRow> row = factor.error().map(id -> facts.tables.errors().get(id));
        OptionalDouble detectable = row.map(ErrorRow::detectable).orElse(OptionalDouble.empty());
        String id = factor.reads().get(0);
        Optional<Quantity> quantity = facts.load.map(report -> report.quantity(id));
        if (quantity.isPresent() && quantity.get().value().isPresent()) {
            double value = quantity.get().value().getAsDouble();
            String text = Plain.brief(value) + " " + quantity.get().unit();
            draft.seen(text).value(value, factor.unit());
            draft.because(
                    quantity.get().label() + ": " + text + ". " + quantity.get().remark(), new Reason.Read(id, text));
            draft.reliability(row);
            draft.verdict(verdict(value, detectable));
            return;
        }
        if (factor.reads().size() == 3 && told(row, detectable)) {
            return;
        }
        draft.because(quantity.map(q -> q.label() + ": " + q.remark()).orElse("No record of training was given."));
    }

    private boolean told(Optional<ErrorRow> row, OptionalDouble detectable) {
        String amount = factor.reads().get(1);
        String base = factor.reads().get(2);
        OptionalDouble now = facts.quantity(amount);
        OptionalDouble before = facts.quantity(base);
        if (now.isEmpty() || before.isEmpty() || !(before.getAsDouble() > 0)) {
            return false;
        }
        double value = PERCENT * (now.getAsDouble() - before.getAsDouble()) / before.getAsDouble();
        draft.value(value, factor.unit());
        draft.seen(facts.observations.shown(amount) + " after " + facts.observations.shown(base));
        draft.because(
                "As told, not from a record: " + Plain.signed(value) + " percent.",
                new Reason.Read(amount, facts.observations.shown(amount)),
                new Reason.Read(base, facts.observations.shown(base)));
        draft.reliability(row);
        draft.verdict(verdict(value, detectable));
        return true;
    }

    void laboratory() {
        draft.because("Known from studies and not measured at the bedside.");
        for (String id : factor.norms()) {
            Norm norm = facts.tables.norms().get(id);
            if (norm != null) {
                draft.norm(norm, OptionalDouble.empty(), facts.age());
            }
        }
    }
}
