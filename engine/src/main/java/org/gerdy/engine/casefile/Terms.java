package org.gerdy.engine.casefile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.vocabulary.Catalogue;

/**
 * The words a case file may use.
 *
 * @param catalogue every finding
 * @param flags ids of red flags
 * @param rows ids of their rows
 * @param conditions ids of conditions
 * @param scores ids of published scores
 * @param decisionRules ids of decision rules
 * @param clashes answers that cannot stand together
 * @param measures measures by id; asked for when a case has some
 * @param factors ids of contributing factors; asked for when a case expects something of them
 * @param planItems ids of plan items; asked for when a case expects something of them
 */
public record Terms(
        Catalogue catalogue,
        Set<String> flags,
        Set<String> rows,
        Set<String> conditions,
        Set<String> scores,
        Set<String> decisionRules,
        List<Clash> clashes,
        Supplier<Map<String, MeasureDefinition>> measures,
        Supplier<Set<String>> factors,
        Supplier<Set<String>> planItems) {

    /** Words without scores, decision rules, measures, factors and plan items. */
    public Terms(
            Catalogue catalogue, Set<String> flags, Set<String> rows, Set<String> conditions, List<Clash> clashes) {
        this(catalogue, flags, rows, conditions, Set.of(), Set.of(), clashes, Map::of, Set::of, Set::of);
    }

    /** What the measures among these words say as findings. */
    public MeasuredFindings measured() {
        return new MeasuredFindings(catalogue, measures.get());
    }

    /** Every answer known at a visit, by finding: of the person, of the visit, and of its measures. */
    public Map<String, Recorded> known(CaseFile caseFile, Visit visit) {
        Map<String, Recorded> recorded = new LinkedHashMap<>(caseFile.patient());
        recorded.putAll(visit.findings());
        return visit.measures().isEmpty() ? recorded : measured().with(recorded, visit.measures());
    }

    /**
     * Answers that cannot stand together.
     *
     * @param id stable name
     * @param when true when the recorded answers clash
     * @param message what to look at again, one sentence
     */
    public record Clash(String id, Expression when, String message) {}
}
