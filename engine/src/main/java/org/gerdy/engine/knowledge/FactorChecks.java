package org.gerdy.engine.knowledge;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorDefinition.Method;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.Norm;

/** Holds factors to the promises no single row can keep. */
final class FactorChecks {
    private FactorChecks() {}

    static void check(
            List<FactorDefinition> factors,
            Map<String, MeasureDefinition> measures,
            Map<String, Norm> norms,
            Map<String, ErrorRow> errors) {
        for (FactorDefinition factor : factors) {
            if (factor.ceiling() == FactorVerdict.CONTRIBUTES && !factor.tie().counts()) {
                throw wrong(factor, "no study ties it to the complaint, so it may not reach 'contributes'");
            }
            if (factor.method() == Method.FINDING && factor.presentWhen().isEmpty()) {
                throw wrong(factor, "'present_when' is blank");
            }
            for (String norm : factor.norms()) {
                if (!norms.containsKey(norm)) {
                    throw wrong(factor, "there is no norm '" + norm + "'");
                }
            }
            error(factor, errors);
        }
        for (Norm norm : norms.values()) {
            if (!measures.containsKey(norm.measure())) {
                throw new KnowledgeException("factor-norms.csv: there is no measure '" + norm.measure() + "'.");
            }
        }
    }

    private static void error(FactorDefinition factor, Map<String, ErrorRow> errors) {
        if (factor.error().isEmpty()) {
            return;
        }
        ErrorRow row = errors.get(factor.error().get());
        if (row == null) {
            throw wrong(factor, "there is no error row '" + factor.error().get() + "'");
        }
        OptionalDouble detectable = row.detectable();
        if (detectable.isPresent() && !row.unit().equals(factor.unit())) {
            throw wrong(
                    factor,
                    "its unit is '" + factor.unit() + "', that of its error '" + row.unit() + "'; never mix them");
        }
        boolean compared = factor.method() == Method.SIDE_DIFFERENCE || factor.method() == Method.PAIRED_LENGTH;
        if (compared
                && detectable.isPresent()
                && factor.contributesBeyond().isPresent()
                && factor.contributesBeyond().getAsDouble() < detectable.getAsDouble()) {
            throw wrong(factor, "it would contribute below the smallest detectable difference");
        }
    }

    private static KnowledgeException wrong(FactorDefinition factor, String what) {
        return new KnowledgeException("factors.csv: " + factor.id() + ": " + what + ".");
    }
}
