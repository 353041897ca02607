package org.gerdy.engine.knowledge;

import java.util.List;
import java.util.OptionalDouble;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Truth;

/**
 * A condition of the differential, as its card shows it.
 *
 * @param id stable name
 * @param name as shown
 * @param structure where it sits
 * @param who who gets it
 * @param onset how it starts
 * @param age the ages it is usual at, in words
 * @param givesAway what gives it away
 * @param lookAlikes other conditions and what separates them
 * @param settledBy what would settle it
 * @param disposition how it is usually handled
 * @param mustNotMiss whether missing it does lasting harm
 * @param flags red flags that stand guard over it
 * @param codeRight ICD-10-CM, right side
 * @param codeLeft ICD-10-CM, left side
 * @param codeUnspecified ICD-10-CM, side not given
 * @param codeBasis where the codes come from
 * @param sex the only sex that can have it, or empty
 * @param ageMin no younger, in years
 * @param ageMax no older, in years
 * @param sources bibliography keys
 * @param note for the rule author
 */
public record Condition(
        String id,
        String name,
        String structure,
        String who,
        String onset,
        String age,
        String givesAway,
        List<LookAlike> lookAlikes,
        String settledBy,
        String disposition,
        boolean mustNotMiss,
        List<String> flags,
        String codeRight,
        String codeLeft,
        String codeUnspecified,
        String codeBasis,
        String sex,
        OptionalDouble ageMin,
        OptionalDouble ageMax,
        List<String> sources,
        String note) {

    /** The same under the guard of other red flags. */
    public Condition guardedBy(List<String> others) {
        return new Condition(
                id,
                name,
                structure,
                who,
                onset,
                age,
                givesAway,
                lookAlikes,
                settledBy,
                disposition,
                mustNotMiss,
                others,
                codeRight,
                codeLeft,
                codeUnspecified,
                codeBasis,
                sex,
                ageMin,
                ageMax,
                sources,
                note);
    }

    /** The id of the candidate that stands for "none of these". */
    public static final String UNEXPLAINED = "unexplained";

    /** Whether somebody of this age can have it; without an age anybody can. */
    public boolean fitsAge(Observations observations) {
        boolean tooYoung =
                ageMin.isPresent() && observations.compare("age", Comparison.BELOW, ageMin.getAsDouble()) == Truth.TRUE;
        boolean tooOld =
                ageMax.isPresent() && observations.compare("age", Comparison.ABOVE, ageMax.getAsDouble()) == Truth.TRUE;
        return !tooYoung && !tooOld;
    }

    /** Another condition and what separates the two. */
    public record LookAlike(String condition, String separatedBy) {}
}
