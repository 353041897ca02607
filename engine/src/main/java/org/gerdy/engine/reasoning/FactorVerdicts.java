package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.Measured;

/**
 * Judges every contributing factor: whether it was measured, whether it is there beyond the error of its measurement,
 * and how the literature ties it to the complaint. Pure: the same input gives the same results.
 */
public final class FactorVerdicts {
    private FactorVerdicts() {}

    /**
     * Judges the factors at one visit.
     *
     * @param tables measures, factors, norms and errors
     * @param observations findings at the visit, with the painful side
     * @param visits measures by visit, oldest first, this visit last; repeats on earlier days narrow the error
     * @param load the load report up to this visit, if there is a record
     * @return one result a factor, in table order
     */
    public static List<FactorResult> judge(
            FactorTables tables,
            Observations observations,
            List<Map<String, Measured>> visits,
            Optional<LoadReport> load) {
        FactorFacts facts = new FactorFacts(tables, observations, visits, load);
        List<FactorResult> results = new ArrayList<>();
        for (FactorDefinition factor : tables.factors()) {
            results.add(judge(facts, factor));
        }
        return List.copyOf(results);
    }

    private static FactorResult judge(FactorFacts facts, FactorDefinition factor) {
        FactorDraft draft = new FactorDraft(factor);
        switch (factor.method()) {
            case SYMMETRY -> new SymmetryJudge(facts, factor, draft).judge();
            case SIDE_DIFFERENCE -> new SideJudge(facts, factor, draft).difference();
            case PAIRED_LENGTH -> new SideJudge(facts, factor, draft).pairedLength();
            case PATTERN -> new SideJudge(facts, factor, draft).pattern();
            case CUT_OFF -> new ValueJudge(facts, factor, draft).cutOff();
            case DESCRIBED -> new ValueJudge(facts, factor, draft).described();
            case CHOICE -> new ValueJudge(facts, factor, draft).choice();
            case FINDING -> new ValueJudge(facts, factor, draft).finding();
            case LOAD -> new ValueJudge(facts, factor, draft).load();
            case LABORATORY -> new ValueJudge(facts, factor, draft).laboratory();
        }
        return draft.result();
    }
}
