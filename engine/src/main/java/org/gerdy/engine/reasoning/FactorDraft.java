package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.FactorDefinition;
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
                List.copyOf(reasons));
    }
}
