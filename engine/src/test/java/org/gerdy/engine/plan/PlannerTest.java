package org.gerdy.engine.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gerdy.engine.fact.FlagStanding;
import org.gerdy.engine.fact.PlanChoice;
import org.gerdy.engine.fact.StageSign;
import org.gerdy.engine.fact.Triage;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.logic.Answers;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

class PlannerTest {
    private static final PlanItem WORK = item("work", List.of(), "rash=present", "danger");
    private static final InterimAdvice WAIT =
            new InterimAdvice("wait", "", List.of(Urgency.URGENT), false, "Wait.", "Wait.", List.of(), Basis.JUDGEMENT);
    private static final InterimAdvice FINISH =
            new InterimAdvice("finish", "", List.of(), true, "Finish.", "Finish.", List.of(), Basis.JUDGEMENT);
    private static final Planner PLANNER =
            new Planner(new PlanTables(List.of("early", "late"), List.of(WORK), List.of(), List.of(WAIT, FINISH)));

    static PlanItem item(String id, List<String> stages, String contraindication, String flag) {
        return new PlanItem(
                id,
                id,
                "work",
                stages,
                List.of(),
                List.of(),
                new Dose(
                        "some",
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        false),
                "on",
                "stop",
                new PlanItem.Limits(
                        Optional.of(Expression.parse(contraindication)), List.of(flag), List.of("worst-case")),
                new PlanItem.Evidence("none", "none", List.of(), Basis.JUDGEMENT),
                "words",
                "",
                ReturnSchedule.OPENED_BY,
                "");
    }

    private static Answers rash(Truth truth) {
        return new Answers() {
            @Override
            public Truth is(String finding, String stateOrChoice) {
                return truth;
            }

            @Override
            public Truth compare(String finding, Comparison comparison, double cutOff) {
                return Truth.UNKNOWN;
            }

            @Override
            public Truth compareSides(String finding, Comparison comparison, double cutOff) {
                return Truth.UNKNOWN;
            }

            @Override
            public Truth compareTo(String finding, Comparison comparison, double factor, String other) {
                return Truth.UNKNOWN;
            }
        };
    }

    private static Plan plan(Truth rash, String flag, Optional<Urgency> urgency, boolean complete, String candidate) {
        return PLANNER.plan(
                new Situation(
                        rash(rash),
                        Triage.of(urgency, complete),
                        List.of(new FlagStanding("danger", flag)),
                        Set.of(candidate)),
                "early",
                List.of(new PlanChoice("work", "a-rule")));
    }

    @Property
    void anItemIsGivenOnlyWhenNothingForbidsItAndEverythingWasAsked(
            @ForAll Truth rash,
            @ForAll Urgency urgency,
            @ForAll boolean complete,
            @ForAll boolean worst,
            @ForAll boolean raised,
            @ForAll boolean open) {
        String flag = raised ? "raised" : open ? "open" : "cleared";
        Plan plan = plan(rash, flag, Optional.of(urgency), complete, worst ? "worst-case" : "mild-case");
        boolean given = plan instanceof Plan.Active active && !active.items().isEmpty();
        assertThat(given)
                .isEqualTo(complete
                        && urgency.compareTo(Urgency.ROUTINE_REFERRAL) <= 0
                        && rash == Truth.FALSE
                        && flag.equals("cleared")
                        && !worst);
    }

    @Test
    void everyReasonForHoldingBackIsNamed() {
        Map<Truth, Plan.Reason> expected = new EnumMap<>(Truth.class);
        expected.put(Truth.TRUE, Plan.Reason.CONTRAINDICATED);
        expected.put(Truth.UNKNOWN, Plan.Reason.NOT_ASKED);
        expected.forEach((truth, reason) -> assertThat(
                        plan(truth, "cleared", Optional.of(Urgency.MANAGE_HERE), true, "mild-case"))
                .isInstanceOfSatisfying(
                        Plan.Active.class,
                        active -> assertThat(active.heldBack()).singleElement().satisfies(held -> {
                            assertThat(held.reason()).isEqualTo(reason);
                            assertThat(held.about()).containsExactly("rash");
                        })));
    }

    @Test
    void interimAdviceFollowsTheLevelAndTheOpenScreening() {
        assertThat(plan(Truth.FALSE, "cleared", Optional.of(Urgency.URGENT), true, "mild-case"))
                .isEqualTo(new Plan.Interim("Urgency is urgent.", List.of(WAIT), Optional.empty()));
        assertThat(plan(Truth.FALSE, "open", Optional.empty(), false, "mild-case"))
                .isEqualTo(new Plan.Interim("Screening is not complete.", List.of(FINISH), Optional.empty()));
    }

    @Test
    void aFlagNobodyReportedCountsAsOpen() {
        Plan plan = PLANNER.plan(
                new Situation(
                        rash(Truth.FALSE), Triage.of(Optional.of(Urgency.MANAGE_HERE), true), List.of(), Set.of()),
                "early",
                List.of(new PlanChoice("work", "a-rule")));
        assertThat(plan).isInstanceOfSatisfying(Plan.Active.class, active -> assertThat(active.items())
                .isEmpty());
    }

    @Test
    void theEarliestStageAnyRulePointsAtWins() {
        assertThat(PLANNER.stage(List.of(new StageSign("late", "a"), new StageSign("early", "b"))))
                .isEqualTo("early");
        assertThatThrownBy(() -> PLANNER.stage(List.of())).isInstanceOf(KnowledgeException.class);
    }

    @Test
    void aRuleThatChoosesARowNoTableHasIsAnError() {
        assertThatThrownBy(() -> PLANNER.plan(
                        new Situation(
                                rash(Truth.FALSE),
                                Triage.of(Optional.of(Urgency.MANAGE_HERE), true),
                                List.of(),
                                Set.of()),
                        "early",
                        List.of(new PlanChoice("other", "a-rule"))))
                .isInstanceOf(KnowledgeException.class)
                .hasMessageContaining("other");
    }
}
