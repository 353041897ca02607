package org.gerdy.engine.plan;

import java.util.List;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * What to do until somebody else has seen the patient; holds no exercise and no running.
 *
 * @param id stable name
 * @param flag the red flag it belongs to, or empty for any
 * @param urgencies the levels it belongs to; empty means every level
 * @param whileOpen whether it also belongs to a screening that is not complete
 * @param text for the clinician
 * @param patientWords the same for the patient
 * @param sources bibliography keys
 * @param basis where it comes from
 */
public record InterimAdvice(
        String id,
        String flag,
        List<Urgency> urgencies,
        boolean whileOpen,
        String text,
        String patientWords,
        List<String> sources,
        Basis basis) {}
