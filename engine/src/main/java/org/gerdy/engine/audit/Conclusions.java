package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.ScoreResult;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.plan.Plan;

/** What an assessment concludes, each conclusion with a name and a word, so that two can be held side by side. */
final class Conclusions {
    static final String URGENCY = "urgency";
    static final String SCORE = "score ";
    static final String DECISION_RULE = "decision rule ";
    static final String FACTOR = "factor ";
    static final String PLAN = "plan";
    private static final int FIRST = 3;

    private Conclusions() {}

    static Map<String, String> of(Assessment assessment) {
        Map<String, String> all = new LinkedHashMap<>();
        all.put(URGENCY, Expected.word(assessment.urgency()));
        all.put("screening", assessment.screeningComplete() ? "complete" : "incomplete");
        for (Flag flag : assessment.flags()) {
            all.put(
                    "flag " + flag.id(),
                    flag.state().word()
                            + flag.urgency().map(level -> " at " + level.word()).orElse("")
                            + (flag.open() && flag.state() == FlagState.RAISED ? ", open above" : ""));
            for (Flag.Row row : flag.rows()) {
                all.put(
                        "row " + row.id(),
                        row.state().word()
                                + (row.state() == FlagState.RAISED
                                        ? " at " + row.urgency().word() + " within " + row.within()
                                        : row.ask().isEmpty() ? "" : ", asks " + String.join(", ", row.ask())));
            }
        }
        all.put("population", assessment.population().id());
        List<String> leading = assessment.candidates(CandidateResult.Standing.LEADING).stream()
                .map(CandidateResult::condition)
                .toList();
        all.put("leading", String.join(", ", leading));
        all.put(
                "first three",
                String.join(
                        ", ",
                        assessment.candidates().stream()
                                .limit(FIRST)
                                .map(CandidateResult::condition)
                                .toList()));
        scores(assessment).forEach((id, said) -> all.put(SCORE + id, said));
        decisionRules(assessment).forEach((id, outcome) -> all.put(DECISION_RULE + id, outcome));
        factors(assessment).forEach((id, verdict) -> all.put(FACTOR + id, verdict));
        all.put(
                "referrals",
                String.join(
                        ", ",
                        assessment.referrals().stream()
                                .map(referral -> referral.id()
                                        + (referral.about().isEmpty() ? "" : " " + referral.about()) + " "
                                        + referral.urgency().word())
                                .toList()));
        return all;
    }

    /** What each score says that there is a reason to run, by id. */
    static Map<String, String> scores(Assessment assessment) {
        return said(assessment.scores(), ScoreResult::id, ScoreResult::said);
    }

    /** How each decision rule comes out, by id. */
    static Map<String, String> decisionRules(Assessment assessment) {
        return said(assessment.decisionRules(), DecisionResult::id, rule -> rule.outcome()
                .word());
    }

    /** The verdict on each contributing factor, by id. */
    static Map<String, String> factors(Assessment assessment) {
        return said(assessment.factors(), FactorResult::id, factor -> factor.verdict()
                .word());
    }

    private static <T> Map<String, String> said(List<T> results, Function<T, String> id, Function<T, String> word) {
        Map<String, String> said = new LinkedHashMap<>();
        results.forEach(result -> said.put(id.apply(result), word.apply(result)));
        return said;
    }

    /** What a visit concludes: the assessment, and the items of its plan or that there is interim advice only. */
    static Map<String, String> of(VisitResult visit) {
        return of(visit.assessment(), visit.aftercare().plan());
    }

    /** What an assessment and the plan that follows conclude. */
    static Map<String, String> of(Assessment assessment, Plan plan) {
        Map<String, String> said = of(assessment);
        if (plan instanceof Plan.Active active) {
            active.items().forEach(chosen -> said.put(PLAN + " " + chosen.item().id(), "given"));
        } else {
            said.put(PLAN, "interim advice only");
        }
        return said;
    }

    /** The names of what differs, in order. */
    static List<String> differing(Map<String, String> before, Map<String, String> after) {
        Set<String> names = new LinkedHashSet<>(before.keySet());
        names.addAll(after.keySet());
        List<String> differing = new ArrayList<>();
        for (String name : names) {
            if (!before.getOrDefault(name, "").equals(after.getOrDefault(name, ""))) {
                differing.add(name);
            }
        }
        return differing;
    }
}
