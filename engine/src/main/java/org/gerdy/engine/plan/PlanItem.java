package org.gerdy.engine.plan;

import java.util.List;
import java.util.Optional;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;

/**
 * One thing a plan can hold, as a row of the plan table.
 *
 * @param id stable name
 * @param label what it is, for the clinician
 * @param category what sort of thing it is, from the table
 * @param stages the stages it belongs to; empty means every stage
 * @param conditions the conditions it is for; empty means any
 * @param factors the contributing factors it answers, may be empty
 * @param dose how much
 * @param progression when and how it moves on
 * @param stop when to stop
 * @param limits what forbids it
 * @param evidence what is known about it
 * @param patientWords the same for the patient
 * @param drawing the drawing that shows it, may be empty
 * @param opens what else it opens, such as a dated schedule; may be empty
 * @param note for the rule author
 */
public record PlanItem(
        String id,
        String label,
        String category,
        List<String> stages,
        List<String> conditions,
        List<String> factors,
        Dose dose,
        String progression,
        String stop,
        Limits limits,
        Evidence evidence,
        String patientWords,
        String drawing,
        String opens,
        String note) {

    /**
     * What forbids an item. Everything here forbids it when it holds and also while it is unknown.
     *
     * @param contraindication condition over findings; empty only where the table says none is known
     * @param flags red flags that forbid it while raised or open
     * @param conditions candidates that forbid it while they lead or are plausible
     */
    public record Limits(Optional<Expression> contraindication, List<String> flags, List<String> conditions) {}

    /**
     * What is known about an item.
     *
     * @param strength the kind of evidence, a word of the table
     * @param text what it shows and where custom goes further than it
     * @param sources bibliography keys
     * @param basis where the dose comes from
     */
    public record Evidence(String strength, String text, List<String> sources, Basis basis) {}

    /** Whether it belongs to this stage. */
    public boolean fits(String stage) {
        return stages.isEmpty() || stages.contains(stage);
    }
}
