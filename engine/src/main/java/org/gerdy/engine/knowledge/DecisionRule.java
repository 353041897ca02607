package org.gerdy.engine.knowledge;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;

/**
 * A published decision rule: any criterion met makes it positive.
 *
 * @param id stable name
 * @param label as shown
 * @param appliesIf the studied population; outside, not applicable and never negative
 * @param excludedIf exclusions of the studies
 * @param criteria each by name
 * @param positiveMeans shown when positive
 * @param negativeMeans shown when negative
 * @param notApplicableMeans shown when not applicable
 * @param sources bibliography keys
 * @param basis where it comes from
 */
public record DecisionRule(
        String id,
        String label,
        Optional<Expression> appliesIf,
        Optional<Expression> excludedIf,
        List<Criterion> criteria,
        String positiveMeans,
        String negativeMeans,
        String notApplicableMeans,
        List<String> sources,
        Basis basis) {

    /** One criterion. */
    public record Criterion(String name, Expression met) {}
}
