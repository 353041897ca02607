package org.gerdy.engine.vocabulary;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.logic.Expression;

/**
 * One question or one test of the catalogue.
 *
 * @param id stable name, lower case with hyphens
 * @param section where in the intake it belongs
 * @param topic finer grouping inside the section
 * @param question as asked of patient or examiner
 * @param technique how to do it and what counts as present; may be empty
 * @param kind what kind of answer it takes
 * @param choices the legal choices of a {@link Kind#CHOICE}, else empty
 * @param unit unit of a quantity, may be empty
 * @param min smallest value that can be true of a person, in {@code unit}
 * @param max largest value that can be true of a person, in {@code unit}
 * @param perSide recorded for each leg or arm
 * @param onlyIf when it makes sense to ask; if known false and nothing is recorded the finding is not applicable
 * @param provocative may hurt or harm when something dangerous is open
 * @param seconds about how long it takes
 * @param equipment what is needed, may be empty
 * @param dangerWhen the answer that is a danger sign, {@code present}, {@code absent}, or empty for neither
 * @param cluster findings of one cluster share one fact; may be empty
 * @param contradicts what cannot hold beside this finding
 * @param implies what must hold beside this finding
 * @param note for the rule author
 */
public record FindingDefinition(
        String id,
        String section,
        String topic,
        String question,
        String technique,
        Kind kind,
        List<String> choices,
        String unit,
        OptionalDouble min,
        OptionalDouble max,
        boolean perSide,
        Optional<Expression> onlyIf,
        boolean provocative,
        int seconds,
        String equipment,
        String dangerWhen,
        String cluster,
        List<Relation> contradicts,
        List<Relation> implies,
        String note) {

    /**
     * This finding answered {@code when} stands against, or requires, {@code other} answered {@code value}.
     *
     * @param when the answer of this finding the relation is about
     */
    public record Relation(String when, String other, String value) {}

    /** Whether the absent answer is the danger sign, as for "can take four steps". */
    public boolean isReversed() {
        return dangerWhen.equals("absent");
    }
}
