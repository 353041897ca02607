package org.gerdy.engine.knowledge;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Points;
import org.gerdy.engine.vocabulary.Basis;

/**
 * A published score.
 *
 * @param id stable name
 * @param label as shown
 * @param points its items
 * @param itemLabels what each item says, in the same order
 * @param bands from lowest to highest
 * @param appliesIf when there is a reason to run it
 * @param excludedIf outside its population: not applicable, never negative
 * @param sources bibliography keys
 * @param basis where it comes from
 * @param note for the reader
 */
public record ScoreDefinition(
        String id,
        String label,
        Points points,
        List<String> itemLabels,
        List<Band> bands,
        Optional<Expression> appliesIf,
        Optional<Expression> excludedIf,
        List<String> sources,
        Basis basis,
        String note) {

    /** A named range of totals, both ends included. */
    public record Band(String name, double low, double high) {
        /** Whether the total falls in this band. */
        public boolean holds(double total) {
            return total >= low && total <= high;
        }
    }
}
