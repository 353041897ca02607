package org.gerdy.cli.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;

class HandWrittenRedFlagsTest {
    private static final int RANDOM_CASES = 150;

    private final Gerdy gerdy = LateralKnee.gerdy();
    private final OrdinaryDrools ordinary = new OrdinaryDrools(gerdy.knowledge());

    @Test
    void theYardsticksRaiseTheSameRowsAsTheRulesOnEveryCaseFile() {
        List<CaseFile> cases = CaseFiles.all(gerdy);
        assertThat(cases).isNotEmpty();
        cases.forEach(this::holdsBeside);
    }

    @Test
    void theYardsticksRaiseTheSameRowsAsTheRulesOnRandomCases() {
        Random random = new Random(20260314);
        int raised = 0;
        for (int i = 0; i < RANDOM_CASES; i++) {
            raised += holdsBeside(randomCase(random));
        }
        assertThat(raised).as("rows raised over all random cases").isGreaterThan(RANDOM_CASES);
    }

    private int holdsBeside(CaseFile caseFile) {
        List<String> rows = new ArrayList<>();
        gerdy.assess(caseFile).flags().forEach(flag -> flag.rows().stream()
                .filter(row -> row.state() == FlagState.RAISED)
                .forEach(row -> rows.add(row.id())));
        Observations answers = Observations.of(gerdy.knowledge().terms(), caseFile, caseFile.latest());
        assertThat(HandWrittenRedFlags.raised(answers))
                .as("rows raised by plain Java, %s, %s", caseFile.id(), answers.recorded())
                .containsExactlyInAnyOrderElementsOf(rows);
        assertThat(ordinary.raised(answers).stream().distinct())
                .as("rows raised the ordinary Drools way, %s", caseFile.id())
                .containsExactlyInAnyOrderElementsOf(rows);
        return rows.size();
    }

    private CaseFile randomCase(Random random) {
        Side side = Side.values()[random.nextInt(Side.values().length)];
        double asked = random.nextDouble();
        double present = random.nextDouble();
        Map<String, Recorded> answers = new LinkedHashMap<>();
        for (FindingDefinition finding : gerdy.knowledge().catalogue().findings()) {
            if (random.nextDouble() < asked) {
                answer(finding, random, present).ifPresent(answer -> answers.put(finding.id(), answer));
            }
        }
        Visit visit = new Visit(LocalDate.of(2026, 3, 2), side, answers, "", Optional.empty());
        return new CaseFile("random", "", "", Map.of(), List.of(visit), Optional.empty());
    }

    private static Optional<Recorded> answer(FindingDefinition finding, Random random, double present) {
        if (finding.kind() == Kind.DATE) {
            return Optional.empty();
        }
        if (!finding.perSide()) {
            return Optional.of(new Recorded.Whole(one(finding, random, present)));
        }
        Optional<Answer> left = random.nextInt(4) == 0 ? Optional.empty() : Optional.of(one(finding, random, present));
        Optional<Answer> right = left.isPresent() && random.nextBoolean()
                ? Optional.empty()
                : Optional.of(one(finding, random, present));
        return Optional.of(new Recorded.Sides(left, right));
    }

    private static Answer one(FindingDefinition finding, Random random, double present) {
        if (finding.kind() == Kind.CHOICE) {
            return new Answer.Choice(
                    finding.choices().get(random.nextInt(finding.choices().size())));
        }
        if (finding.kind() == Kind.YES_NO) {
            return random.nextInt(12) == 0
                    ? Answer.State.UNABLE
                    : random.nextDouble() < present ? Answer.State.PRESENT : Answer.State.ABSENT;
        }
        double low = finding.min().orElse(0);
        double high = finding.max().orElse(100);
        // Small values too: most cut-offs lie near the lower end of what can be true.
        double value = Math.rint(low + (high - low) * Math.pow(random.nextDouble(), 1 + random.nextInt(3)));
        return new Answer.Quantity(value, value + " " + finding.unit());
    }
}
