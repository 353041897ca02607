package org.gerdy.rules.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.fact.FactorFinding;
import org.gerdy.engine.plan.ClinicianDecision;
import org.gerdy.engine.plan.Dose;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.junit.jupiter.api.Test;

class PlanTest {
    @Test
    void painInOrdinaryWalkingMakesAnIrritablePlanWithoutRunning() {
        Plan.Active plan = Shipped.active(Shipped.irritable());
        assertThat(plan.stage()).isEqualTo("irritable");
        assertThat(Shipped.ids(plan)).contains("no-running-for-now", "clam", "two-leg-bridge");
        assertThat(Shipped.ids(plan)).doesNotContain("running-below-pain", "graded-return", "single-leg-squat");
    }

    @Test
    void walkingNotAskedAboutIsTakenAsIrritable() {
        assertThat(Shipped.active(Shipped.screened()).stage()).isEqualTo("irritable");
    }

    @Test
    void comfortableWalkingMakesASettlingPlanInStanding() {
        Plan.Active plan = Shipped.active(Shipped.settling());
        assertThat(plan.stage()).isEqualTo("settling");
        assertThat(Shipped.ids(plan)).contains("band-walk", "single-leg-squat", "single-leg-bridge");
        assertThat(plan.clearance("return-schedule")).isEmpty();
    }

    @Test
    void aBriskHalfHourWithoutPainOpensTheWayBackToRunning() {
        Plan.Active plan = Shipped.active(Shipped.returning());
        assertThat(plan.stage()).isEqualTo("returning");
        assertThat(plan.clearance("return-schedule")).isPresent();
        assertThat(plan.clearance("support-schedule")).isPresent();
    }

    @Test
    void aMeasuredFactorAddsItsItemAndABorderlineOneDoesNot() {
        assertThat(Shipped.ids(
                        Shipped.active(Shipped.settling(), new FactorFinding("hip-abductor-strength", "contributes"))))
                .contains("hip-hike");
        assertThat(Shipped.ids(
                        Shipped.active(Shipped.settling(), new FactorFinding("hip-abductor-strength", "borderline"))))
                .doesNotContain("hip-hike");
    }

    @Test
    void aContraindicationNotAskedAboutHoldsTheItemBackAndSaysWhatToAsk() {
        Map<String, Recorded> answers = Shipped.settling();
        answers.remove("anticoagulant");
        assertThat(Shipped.active(answers).heldBack()).anySatisfy(held -> {
            assertThat(held.item().id()).isEqualTo("roller-outer-thigh");
            assertThat(held.reason()).isEqualTo(Plan.Reason.NOT_ASKED);
            assertThat(held.about()).contains("touch-barred");
        });
    }

    @Test
    void aContraindicationThatIsThereHoldsTheItemBack() {
        Map<String, Recorded> answers = Shipped.settling();
        answers.putAll(Shipped.answers("treatment-area-skin-broken present"));
        assertThat(Shipped.active(answers).heldBack()).anySatisfy(held -> {
            assertThat(held.item().id()).isEqualTo("roller-outer-thigh");
            assertThat(held.reason()).isEqualTo(Plan.Reason.CONTRAINDICATED);
        });
    }

    @Test
    void everyItemGivenNamesTheRuleThatChoseItAndEveryRuleIsOfTheKnowledgeBase() {
        assertThat(Shipped.active(Shipped.returning()).items()).isNotEmpty().allSatisfy(chosen -> assertThat(
                        chosen.rules())
                .isNotEmpty()
                .allSatisfy(rule -> assertThat(Shipped.KNOWLEDGE.rules()).containsKey(rule)));
    }

    @Test
    void everyRowOfThePlanTableIsChosenBySomeRuleAndEveryRuleChoosesARow() {
        List<String> chosen = Shipped.KNOWLEDGE.rules().values().stream()
                .flatMap(card -> java.util.regex.Pattern.compile("PlanChoice\\.take\\(\"([a-z0-9-]+)\"")
                        .matcher(card.text())
                        .results()
                        .map(result -> result.group(1)))
                .distinct()
                .toList();
        assertThat(chosen)
                .containsExactlyInAnyOrderElementsOf(
                        Shipped.PLAN.items().stream().map(PlanItem::id).toList());
    }

    @Test
    void theCliniciansDecisionStandsBesideThePlanAndChangesNothingInIt() {
        Plan.Active plan = Shipped.active(Shipped.settling());
        Plan.Active decided = plan.with(new ClinicianDecision("No band walk this week.", "Moving house."));
        assertThat(decided.items()).isEqualTo(plan.items());
        assertThat(decided.heldBack()).isEqualTo(plan.heldBack());
        assertThat(decided.clinician()).contains(new ClinicianDecision("No band walk this week.", "Moving house."));
    }

    @Test
    void hipExercisesOfCommonPracticeAreTwoSetsOfTenOnBothSides() {
        // Common practice, no source.
        for (String id : List.of("clam", "side-lift-level", "side-lift-turned-out", "two-leg-bridge")) {
            Dose dose = Shipped.PLAN.item(id).dose();
            assertThat(dose.sets().orElseThrow().low()).isEqualTo(2);
            assertThat(dose.sets().orElseThrow().high()).isEqualTo(2);
            assertThat(dose.reps().orElseThrow().low()).isEqualTo(10);
            assertThat(dose.bothSides()).isTrue();
            assertThat(Shipped.PLAN.item(id).evidence().basis().word()).isEqualTo("common-practice");
        }
    }

    @Test
    void theTwoLegBridgeIsHeldForASecondOrTwoAndGoesOnToOneLeg() {
        // Common practice, no source.
        PlanItem bridge = Shipped.PLAN.item("two-leg-bridge");
        assertThat(bridge.dose().holdSeconds().orElseThrow().low()).isEqualTo(1);
        assertThat(bridge.dose().holdSeconds().orElseThrow().high()).isEqualTo(2);
        assertThat(bridge.progression()).contains("single-leg bridge");
    }

    @Test
    void theRollerMakesFiveToTenPassesFromHipToBelowTheKneeOnBothSides() {
        // Common practice, no source.
        PlanItem roller = Shipped.PLAN.item("roller-outer-thigh");
        assertThat(roller.dose().reps().orElseThrow().low()).isEqualTo(5);
        assertThat(roller.dose().reps().orElseThrow().high()).isEqualTo(10);
        assertThat(roller.dose().bothSides()).isTrue();
        assertThat(roller.dose().text()).contains("from the hip to below the knee");
    }

    @Test
    void theLeanStretchIsHeldTenToFifteenSecondsThreeToFiveTimesADay() {
        // Common practice, no source.
        Dose dose = Shipped.PLAN.item("standing-lean-stretch").dose();
        assertThat(dose.holdSeconds().orElseThrow().low()).isEqualTo(10);
        assertThat(dose.holdSeconds().orElseThrow().high()).isEqualTo(15);
        assertThat(dose.perDay().orElseThrow().low()).isEqualTo(3);
        assertThat(dose.perDay().orElseThrow().high()).isEqualTo(5);
    }

    @Test
    void theTrialDosesAreThoseOfTheTrial() {
        // McKay 2020, Table 2.
        Dose plank = Shipped.PLAN.item("side-plank-knees").dose();
        assertThat(plank.sets().orElseThrow().low()).isEqualTo(2);
        assertThat(plank.holdSeconds().orElseThrow().low()).isEqualTo(30);
        Dose walk = Shipped.PLAN.item("band-walk").dose();
        assertThat(walk.sets().orElseThrow().high()).isEqualTo(3);
        assertThat(walk.reps().orElseThrow().low()).isEqualTo(15);
        assertThat(walk.perWeek().orElseThrow().low()).isEqualTo(3);
    }

    @Test
    void everySourceOfThePlanTablesIsInTheBibliography() {
        assertThat(Shipped.PLAN.items())
                .allSatisfy(item -> assertThat(Shipped.KNOWLEDGE.bibliography().keySet())
                        .containsAll(item.evidence().sources()));
        for (String table : List.of(
                "not-advised.csv",
                "interim-advice.csv",
                "run-steps.csv",
                "support-steps.csv",
                "support-accuracy.csv",
                "support-effects.csv",
                "pain-monitoring.csv",
                "plan-settings.csv",
                "plan-terms.csv",
                "stages.csv",
                "outcome-measures.csv",
                "course.csv")) {
            for (Map<String, String> row : Shipped.rows(table, "source", "basis")) {
                String sources = row.getOrDefault("source", "");
                if (!sources.isEmpty()) {
                    assertThat(Shipped.KNOWLEDGE.bibliography().keySet()).contains(sources.split("\\|"));
                } else {
                    assertThat(row.get("basis")).as(table).isIn("judgement", "common-practice");
                }
            }
        }
    }

    @Test
    void everySourceOfAPlanRuleIsInTheBibliography() {
        assertThat(Shipped.KNOWLEDGE.rules().values())
                .filteredOn(card -> card.file().startsWith("plan/"))
                .isNotEmpty()
                .allSatisfy(card -> assertThat(Shipped.KNOWLEDGE.bibliography().keySet())
                        .as(card.id())
                        .containsAll(card.sources()));
    }
}
