package org.gerdy.rules.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.statistics.Statistics;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.fact.FactorFinding;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.InterimAdvice;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.engine.vocabulary.Urgency;

class PlanPropertiesTest {
    private static final List<FindingDefinition> YES_NO = Shipped.KNOWLEDGE.catalogue().findings().stream()
            .filter(finding -> finding.kind() == Kind.YES_NO)
            .toList();
    private static final List<FactorFinding> FACTORS = List.of(
            new FactorFinding("hip-abductor-strength", "contributes"),
            new FactorFinding("step-rate", "contributes"),
            new FactorFinding("step-width", "contributes"),
            new FactorFinding("foot-posture", "contributes"),
            new FactorFinding("session-spike", "contributes"),
            new FactorFinding("footwear-change", "contributes"));

    /** A runner at one of the stages, with some answers turned over and some forgotten. */
    private static Map<String, Recorded> patient(Random random) {
        Map<String, Recorded> answers =
                switch (random.nextInt(3)) {
                    case 0 -> Shipped.irritable();
                    case 1 -> Shipped.settling();
                    default -> Shipped.returning();
                };
        for (int i = random.nextInt(4); i > 0; i--) {
            String id = YES_NO.get(random.nextInt(YES_NO.size())).id();
            answers.putAll(Shipped.answers(id + (random.nextInt(3) > 0 ? " present" : " absent")));
        }
        List<String> ids = new ArrayList<>(answers.keySet());
        for (int i = random.nextInt(3); i > 0; i--) {
            answers.remove(ids.get(random.nextInt(ids.size())));
        }
        return answers;
    }

    private static FactorFinding[] factors(Random random) {
        return FACTORS.stream().filter(factor -> random.nextBoolean()).toArray(FactorFinding[]::new);
    }

    @Property(tries = 400)
    void aboveRoutineReferralOrBeforeScreeningIsCompleteThereIsOnlyInterimAdvice(@ForAll long number) {
        Random random = new Random(number);
        Map<String, Recorded> answers = patient(random);
        var assessment = Shipped.assess(answers);
        boolean above = assessment
                .urgency()
                .map(level -> level.compareTo(Urgency.ROUTINE_REFERRAL) > 0)
                .orElse(false);
        boolean open = assessment.flags().stream().anyMatch(flag -> flag.open());
        Plan plan = Shipped.plan(answers, factors(random));
        assertThat(plan instanceof Plan.Interim).isEqualTo(above || open);
        if (plan instanceof Plan.Interim interim) {
            assertThat(interim.advice()).isNotEmpty();
            assertThat(interim.advice().stream().map(InterimAdvice::text))
                    .anyMatch(text -> text.contains("no running"));
        }
    }

    @Property(tries = 400)
    void noItemIsGivenWhoseContraindicationIsThereOrNotAsked(@ForAll long number) {
        Random random = new Random(number);
        Map<String, Recorded> answers = patient(random);
        Plan made = Shipped.plan(answers, factors(random));
        Statistics.label("plan with items")
                .collect(made instanceof Plan.Active)
                .coverage(coverage -> coverage.check(true).percentage(share -> share > 15));
        if (made instanceof Plan.Active plan) {
            var observations = Shipped.observations(answers);
            assertThat(Shipped.items(plan))
                    .allSatisfy(item -> item.limits().contraindication().ifPresent(expression -> assertThat(
                                    expression.in(observations))
                            .as(item.id())
                            .isEqualTo(Truth.FALSE)));
        }
    }

    @Property(tries = 200)
    void runningIsNeverOpenedWithoutTheBriskWalkOrWithABoneSign(@ForAll long number) {
        Random random = new Random(number);
        Map<String, Recorded> answers = Shipped.returning();
        List<String> signs = List.of(
                "focal-bony-tenderness present",
                "brisk-walk-30-min absent",
                "hop-test present",
                "limp present",
                "effusion-any present",
                "pain-on-weight-bearing present",
                "pain-at-rest 4");
        answers.putAll(Shipped.answers(signs.get(random.nextInt(signs.size()))));
        if (Shipped.plan(answers, factors(random)) instanceof Plan.Active plan) {
            assertThat(plan.clearance("return-schedule")).isEmpty();
            assertThat(plan.clearance("support-schedule")).isEmpty();
        }
    }
}
