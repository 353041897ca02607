package org.gerdy.engine.drill;

import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.vocabulary.Catalogue;

/**
 * A patient to practise on: every answer that patient would give.
 *
 * @param id the number of a made patient or the id of a case file; tells nothing of the cause
 * @param causes the conditions it was made from or is known to have, the first one first; empty when not known
 * @param difficulty how it was made, as a word; {@code case-file} for a case file
 * @param seed the number it can be made again from; empty for a case file
 * @param side the painful side
 * @param opening what the patient says on coming in
 * @param given what is known before the first question
 * @param answers every answer, what is given included
 * @param cannotSay questions that have no answer in this patient
 */
public record DrillPatient(
        String id,
        List<String> causes,
        String difficulty,
        OptionalLong seed,
        Side side,
        String opening,
        Map<String, Recorded> given,
        Map<String, Recorded> answers,
        Set<String> cannotSay) {

    /** What is known before the first question. */
    public Observations start(Catalogue catalogue) {
        return Observations.of(catalogue, side, given);
    }

    /** Everything there is to know. */
    public Observations whole(Catalogue catalogue) {
        return Observations.of(catalogue, side, answers);
    }
}
