package org.gerdy.engine.reasoning;

import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.fact.FactorFinding;
import org.gerdy.engine.fact.FlagStanding;
import org.gerdy.engine.fact.PlanChoice;
import org.gerdy.engine.fact.Stage;
import org.gerdy.engine.fact.StageSign;
import org.gerdy.engine.fact.Triage;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.plan.Planner;
import org.gerdy.engine.plan.Situation;

/** Turns one visit into a plan: triage first, then the stage, then the items rules choose, then what forbids them. */
public final class PlanReasoner {
    private final KnowledgeBase knowledge;
    private final Reasoner reasoner;
    private final Planner planner;

    /** A plan reasoner over this knowledge base and these tables. */
    public PlanReasoner(KnowledgeBase knowledge, PlanTables tables) {
        this.knowledge = knowledge;
        this.reasoner = new Reasoner(knowledge);
        this.planner = new Planner(tables);
    }

    /**
     * The plan for one visit.
     *
     * @param factors contributing factors with their verdicts; empty for those the assessment found
     */
    public Plan plan(CaseFile caseFile, Visit visit, Collection<FactorFinding> factors) {
        return plan(
                Reasoner.About.of(knowledge, caseFile, visit),
                Observations.of(knowledge.terms(), caseFile, visit),
                factors);
    }

    /** The plan for these observations. */
    public Plan plan(Reasoner.About about, Observations observations, Collection<FactorFinding> factors) {
        return consider(about, observations, factors).plan();
    }

    /**
     * Triage and plan from one session.
     *
     * @param assessment the triage
     * @param plan the plan
     * @param stageRules the rules behind its stage
     */
    record Considered(Assessment assessment, Plan plan, List<String> stageRules) {}

    /** Triage and plan for these observations. */
    Considered consider(Reasoner.About about, Observations observations, Collection<FactorFinding> factors) {
        try (RuleSession session = new RuleSession(knowledge)) {
            Assessment assessment = reasoner.assess(session, about, observations);
            Situation situation = situation(assessment, observations);
            session.know(FlagStanding.class, situation.flags());
            session.know(Triage.class, List.of(situation.triage()));
            session.know(FactorFinding.class, found(assessment, factors));
            List<StageSign> signs = session.conclusions(StageSign.class);
            String stage = planner.stage(signs);
            session.know(Stage.class, List.of(new Stage(stage)));
            return new Considered(
                    assessment,
                    planner.plan(situation, stage, session.conclusions(PlanChoice.class)),
                    signs.stream()
                            .filter(sign -> sign.stage().equals(stage))
                            .map(StageSign::rule)
                            .distinct()
                            .sorted()
                            .toList());
        }
    }

    /** The factors given, else those the assessment judged. */
    static Collection<FactorFinding> found(Assessment assessment, Collection<FactorFinding> given) {
        return given.isEmpty()
                ? assessment.factors().stream()
                        .map(factor ->
                                new FactorFinding(factor.id(), factor.verdict().word()))
                        .toList()
                : given;
    }

    static Situation situation(Assessment assessment, Observations observations) {
        List<FlagStanding> flags = assessment.flags().stream()
                .map(flag -> new FlagStanding(flag.id(), standing(flag)))
                .toList();
        boolean complete = assessment.flags().stream().noneMatch(flag -> flag.open());
        return new Situation(
                observations,
                Triage.of(assessment.urgency(), complete),
                flags,
                assessment.candidates().stream()
                        .filter(candidate -> candidate.standing() != CandidateResult.Standing.UNLIKELY)
                        .map(CandidateResult::condition)
                        .collect(Collectors.toUnmodifiableSet()));
    }

    /** A flag that does not apply, or whose entry question was answered no, holds nothing back. */
    private static String standing(Flag flag) {
        if (flag.state() == FlagState.RAISED) {
            return "raised";
        }
        return flag.open() || flag.state() == FlagState.OPEN ? "open" : "cleared";
    }
}
