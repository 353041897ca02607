package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Gauge;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.measure.Band;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorDefinition.Direction;
import org.gerdy.engine.measure.FactorDefinition.Method;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.NormalCurve;
import org.gerdy.engine.measure.Plain;

/** A factor result while it is worked out. */
final class FactorDraft {
    private static final double PERCENT = 100;

    private final FactorDefinition factor;
    private final List<Reason> reasons = new ArrayList<>();
    private FactorVerdict verdict = FactorVerdict.NOT_MEASURED;
    private OptionalDouble value = OptionalDouble.empty();
    private String unit;
    private String seen = "";
    private String norm = "";
    private OptionalDouble error = OptionalDouble.empty();
    private String reliability = "";
    private List<Gauge.Mark> pair = List.of();
    private String pairUnit = "";
    private Optional<Gauge.Group> group = Optional.empty();

    FactorDraft(FactorDefinition factor) {
        this.factor = factor;
        this.unit = factor.unit();
    }

    FactorDraft value(double number, String inUnit) {
        value = OptionalDouble.of(number);
        unit = inUnit;
        return this;
    }

    FactorDraft seen(String text) {
        seen = text;
        return this;
    }

    FactorDraft error(OptionalDouble detectable) {
        error = detectable;
        return this;
    }

    /** What each side reads, the painful one first. */
    FactorDraft pair(List<Gauge.Mark> marks, String inUnit) {
        pair = List.copyOf(marks);
        pairUnit = inUnit;
        return this;
    }

    /** The class of a measure that is called ordinary, shown where no norm gives a span. */
    FactorDraft ordinary(Band band) {
        group = Optional.of(new Gauge.Group(
                band.low(),
                band.high(),
                group.map(Gauge.Group::middle).orElse(OptionalDouble.empty()),
                "class '" + band.name() + "'"
                        + group.map(known -> "; " + known.words()).orElse("")));
        return this;
    }

    /** Shows how well the measure repeats. */
    FactorDraft reliability(Optional<ErrorRow> row) {
        if (row.isPresent()) {
            ErrorRow known = row.get();
            reliability = known.reliability();
            reasons.add(new Reason(
                    "error:" + known.id(),
                    "How well it repeats: " + reliability
                            + (known.population().isEmpty() ? "" : " (" + known.population() + ")") + ". "
                            + sentence(known.note()),
                    List.of(),
                    known.sources(),
                    known.basis()));
        }
        return this;
    }

    /** Holds a number against a norm, with its z-score where a spread is known. */
    FactorDraft norm(Norm known, OptionalDouble number, OptionalDouble age) {
        String text = known.text(age);
        norm = norm.isEmpty() ? text : norm + "; " + text;
        if (number.isPresent()) {
            group = Optional.of(group(known, age, text));
        }
        StringBuilder because = new StringBuilder("Norm: ").append(text).append(".");
        OptionalDouble z = number.isPresent() ? known.z(number.getAsDouble(), age) : OptionalDouble.empty();
        if (z.isPresent()) {
            because.append(" ")
                    .append(Plain.brief(number.getAsDouble()))
                    .append(" lies ")
                    .append(Plain.signed(z.getAsDouble()))
                    .append(" SD from it, above ")
                    .append(Math.round(PERCENT * NormalCurve.below(z.getAsDouble())))
                    .append(" % of that group: a place among healthy people, not a finding.");
        }
        because.append(known.note().isEmpty() ? "" : " " + sentence(known.note()));
        reasons.add(new Reason("norm:" + known.id(), because.toString(), List.of(), known.sources(), known.basis()));
        return this;
    }

    /** A step towards the verdict. */
    FactorDraft because(String sentence, Reason.Read... reads) {
        reasons.add(new Reason("factor:" + factor.id(), sentence, List.of(reads), factor.sources(), factor.basis()));
        return this;
    }

    FactorDraft verdict(FactorVerdict reached) {
        verdict = reached.atMost(factor.ceiling());
        if (verdict != reached) {
            because(
                    factor.tie().counts()
                            ? "It is there, and described only: the verdict stops at '" + verdict.word()
                                    + "' because of how it is tied to the complaint or measured."
                            : "It is there, and not counted: no study ties it to the complaint.");
        }
        return this;
    }

    /** The printed range, else one standard deviation each way of the mean. */
    private static Gauge.Group group(Norm known, OptionalDouble age, String text) {
        OptionalDouble middle = known.expected(age);
        if (known.low().isPresent()
                || known.high().isPresent()
                || middle.isEmpty()
                || known.sd().isEmpty()) {
            return new Gauge.Group(known.low(), known.high(), middle, text);
        }
        return new Gauge.Group(
                OptionalDouble.of(middle.getAsDouble() - known.sd().getAsDouble()),
                OptionalDouble.of(middle.getAsDouble() + known.sd().getAsDouble()),
                middle,
                text);
    }

    private List<Gauge> gauges() {
        List<Gauge> gauges = new ArrayList<>();
        boolean ofSides =
                switch (factor.method()) {
                    case SYMMETRY, SIDE_DIFFERENCE, PAIRED_LENGTH -> true;
                    default -> false;
                };
        if (ofSides && !pair.isEmpty()) {
            gauges.add(new Gauge("each side", pairUnit, pair, OptionalDouble.empty(), group, List.of()));
        }
        if (value.isPresent() && ofSides) {
            gauges.add(new Gauge(
                    factor.method() == Method.SYMMETRY ? "painful side over the other" : "painful side minus the other",
                    unit,
                    List.of(new Gauge.Mark("", value.getAsDouble())),
                    error,
                    Optional.empty(),
                    lines()));
        } else if (value.isPresent()) {
            gauges.add(new Gauge(
                    pair.isEmpty() ? "" : "each side",
                    unit,
                    pair.isEmpty() ? List.of(new Gauge.Mark("", value.getAsDouble())) : pair,
                    error,
                    group,
                    lines()));
        }
        return List.copyOf(gauges);
    }

    private List<Gauge.Line> lines() {
        List<Gauge.Line> lines = new ArrayList<>();
        switch (factor.method()) {
            case SYMMETRY -> {
                lines.add(new Gauge.Line(PERCENT, Gauge.Meaning.EQUAL));
                line(lines, factor.borderlineBeyond(), -1, PERCENT, Gauge.Meaning.BORDERLINE);
                line(lines, factor.contributesBeyond(), -1, PERCENT, Gauge.Meaning.CONTRIBUTES);
            }
            case SIDE_DIFFERENCE, PAIRED_LENGTH -> {
                lines.add(new Gauge.Line(0, Gauge.Meaning.EQUAL));
                if (factor.direction() != Direction.HIGHER) {
                    line(lines, factor.borderlineBeyond(), -1, 0, Gauge.Meaning.BORDERLINE);
                    line(lines, factor.contributesBeyond(), -1, 0, Gauge.Meaning.CONTRIBUTES);
                }
                if (factor.direction() != Direction.LOWER) {
                    line(lines, factor.borderlineBeyond(), 1, 0, Gauge.Meaning.BORDERLINE);
                    line(lines, factor.contributesBeyond(), 1, 0, Gauge.Meaning.CONTRIBUTES);
                }
            }
            case CUT_OFF, LOAD -> {
                line(lines, factor.borderlineBeyond(), 1, 0, Gauge.Meaning.BORDERLINE);
                line(lines, factor.contributesBeyond(), 1, 0, Gauge.Meaning.CONTRIBUTES);
            }
            default -> {}
        }
        return List.copyOf(lines);
    }

    /** A line where the verdict can turn; one the ceiling of the factor keeps out of reach is left out. */
    private void line(List<Gauge.Line> lines, OptionalDouble beyond, int sign, double from, Gauge.Meaning meaning) {
        FactorVerdict reached =
                meaning == Gauge.Meaning.CONTRIBUTES ? FactorVerdict.CONTRIBUTES : FactorVerdict.BORDERLINE;
        if (beyond.isPresent() && reached.atMost(factor.ceiling()) == reached) {
            lines.add(new Gauge.Line(from + sign * beyond.getAsDouble(), meaning));
        }
    }

    private static String sentence(String text) {
        return text.isEmpty() || text.endsWith(".") ? text : text + ".";
    }

    FactorResult result() {
        String association =
                factor.belief().isEmpty() ? factor.association() : factor.association() + " " + factor.belief();
        if (verdict.compareTo(FactorVerdict.BORDERLINE) >= 0 && !factor.advice().isEmpty()) {
            because(factor.advice());
        }
        reasons.add(new Reason(
                "factor:" + factor.id(),
                "Tie to the complaint (" + factor.tie().word() + "): " + association,
                List.of(),
                factor.sources(),
                factor.basis()));
        return new FactorResult(
                factor.id(),
                factor.label(),
                factor.domain(),
                verdict,
                value,
                unit,
                seen,
                norm,
                error,
                reliability,
                factor.tie().word(),
                association,
                gauges(),
                List.copyOf(reasons));
    }
}
