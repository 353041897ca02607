package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CheckCommandTest {
    private static Run check(String findings) {
        return Run.fed(
                "gerdy: 1\ncase: a\nvisits:\n  - date: 2026-03-02\n    side: left\n    findings: {" + findings + "}\n",
                "check",
                "-");
    }

    @Test
    void aSoundCaseIsToldSoAndEndsWithZero() {
        Run run = Run.of("check", Run.DEMO);
        assertThat(run).isEqualTo(new Run(0, "1 case is sound." + System.lineSeparator(), ""));
    }

    @Test
    void everyFaultIsPrintedWithFileLineAndColumn() {
        Run run = check("fevr: present, age: 200, varus-laxity-30: perhaps");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out().lines().filter(line -> line.matches("standard input:6:[0-9]+: .+[.?]")))
                .hasSize(3);
        assertThat(run.out()).contains("did you mean 'fever'?").contains("3 faults in 1 case.");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "effusion-any: absent, tense-effusion: present | tense",
                "temperature: 38.5, fever: absent | fever",
                "dorsiflexion-grade: 3, dorsiflexion-weakness: absent | Ankle lift",
                "leg-power-lowest-grade: 5, dorsiflexion-grade: 3 | grade",
                "pain-average-week: 9, pain-worst-24h: 4, pain-worst-run: 5 | average",
                "age: 20, running-years: 30 | running",
                "still-running: as-usual, four-steps-now: absent | four",
                "calf-circumference: {left: 39, right: 35}, calf-swelling: absent | calf",
                "sex: male, pregnancy-status: pregnant | sex",
                "weeks-of-care: 10, symptom-duration: 4 | care"
            })
    void answersThatCannotStandTogetherAreTold(String findings, String word) {
        Run run = check(findings);
        assertThat(run.code()).as(run.out()).isEqualTo(1);
        assertThat(run.out()).containsIgnoringCase(word);
    }

    @Test
    void theSchemaIsPrintedAsJson() throws IOException {
        Run run = Run.of("check", "--schema");
        assertThat(run.code()).isZero();
        assertThat(new ObjectMapper().readTree(run.out()).get("$schema").asText())
                .contains("2020-12");
    }

    @Test
    void nothingToCheckIsWrongUsage() {
        assertThat(Run.of("check").code()).isEqualTo(2);
    }
}
