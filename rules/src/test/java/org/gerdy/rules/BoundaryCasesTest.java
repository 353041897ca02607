package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.assertj.core.api.SoftAssertions;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.knowledge.RuleCard;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Each red flag rule has a case that just meets it and a case that just misses it. */
class BoundaryCasesTest {
    private static final Path DIRECTORY = Shipped.ROOT.resolve("cases/boundary");

    private static List<Path> files() throws IOException {
        try (Stream<Path> paths = Files.list(DIRECTORY)) {
            return paths.sorted().toList();
        }
    }

    @TestFactory
    Stream<DynamicTest> everyBoundaryCaseComesOutAsItExpects() throws IOException {
        assertThat(files()).hasSizeGreaterThan(400);
        return files().stream()
                .map(file -> DynamicTest.dynamicTest(file.getFileName().toString(), () -> holds(file)));
    }

    private static void holds(Path file) throws Exception {
        CaseFile read = Shipped.GERDY.read(file);
        CaseFile.Expectation expect = read.expect().orElseThrow();
        Assessment assessment = Shipped.GERDY.assess(read);
        Set<String> raised = assessment.raisedFlags().stream().map(Flag::id).collect(Collectors.toSet());
        Set<String> rows = assessment.flags().stream()
                .flatMap(flag -> flag.rows().stream())
                .filter(row -> row.state() == FlagState.RAISED)
                .map(Flag.Row::id)
                .collect(Collectors.toSet());
        SoftAssertions all = new SoftAssertions();
        all.assertThat(raised).containsAll(expect.raised()).doesNotContainAnyElementsOf(some(expect.notRaised()));
        all.assertThat(rows).containsAll(expect.rowsRaised()).doesNotContainAnyElementsOf(some(expect.rowsNotRaised()));
        expect.atLeast().ifPresent(least -> all.assertThat(assessment.urgency().orElseThrow())
                .isGreaterThanOrEqualTo(least));
        expect.urgency().ifPresent(exact -> all.assertThat(assessment.urgency()).contains(exact));
        expect.cleared()
                .forEach(id -> all.assertThat(assessment.flag(id).state()).isEqualTo(FlagState.CLEARED));
        expect.open().forEach(id -> all.assertThat(assessment.flag(id).open()).isTrue());
        all.assertThat(expect.rowsRaised().size() + expect.rowsNotRaised().size())
                .as("rows the case holds the rules to")
                .isPositive();
        String name = file.getFileName().toString();
        all.assertThat(assessment.flags().stream()
                        .flatMap(flag -> flag.rows().stream())
                        .flatMap(row -> row.reasons().stream())
                        .anyMatch(reason -> name.equals(reason.rule() + "-meets.yaml")
                                || name.equals(reason.rule() + "-misses.yaml")
                                || name.equals(reason.rule() + "-outside.yaml")))
                .as("the rule the case is named for fires")
                .isEqualTo(name.endsWith("-meets.yaml"));
        all.assertAll();
    }

    /** AssertJ refuses an empty list of unwanted things. */
    private static List<String> some(List<String> unwanted) {
        return unwanted.isEmpty() ? List.of("nothing-has-this-name") : unwanted;
    }

    @Test
    void everyRedFlagRuleHasACaseThatMeetsItAndOneThatMissesIt() throws IOException {
        Set<String> names = files().stream()
                .map(file -> file.getFileName().toString().replaceFirst("\\.yaml$", ""))
                .collect(Collectors.toSet());
        List<RuleCard> rules = Shipped.GERDY.knowledge().rules().values().stream()
                .filter(rule -> rule.file().startsWith("redflags/"))
                .toList();
        assertThat(rules).hasSizeGreaterThan(150);
        assertThat(rules.stream()
                        .flatMap(rule -> Stream.of(rule.id() + "-meets", rule.id() + "-misses"))
                        .filter(name -> !names.contains(name)))
                .as("boundary cases still to be written")
                .isEmpty();
    }
}
