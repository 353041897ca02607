package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CaseReaderFormsTest {
    @Test
    void aCaseReadsTheSameInYamlAndInJson() throws Exception {
        String json = new ObjectMapper().writeValueAsString(new YAMLMapper().readTree(Sample.GOOD));
        CaseFile yaml = Sample.read(Sample.GOOD);
        assertThat(Sample.READER.read("case.json", json.getBytes(StandardCharsets.UTF_8)))
                .isEqualTo(yaml);
    }

    @Test
    void aFileAndAStreamReadTheSame(@TempDir Path directory) throws Exception {
        Path file = Files.writeString(directory.resolve("case.yaml"), Sample.GOOD);
        CaseFile read = Sample.READER.read(file);
        assertThat(Sample.READER.read("-", new ByteArrayInputStream(Files.readAllBytes(file))))
                .isEqualTo(read);
        assertThat(Sample.READER.check(file)).isEmpty();
    }

    @Test
    void everythingWrittenIsInTheCaseAndNothingElse() throws Exception {
        CaseFile read = Sample.read(Sample.GOOD);
        assertThat(read.id()).isEqualTo("sample-01");
        assertThat(read.patient()).containsOnlyKeys("age");
        assertThat(read.visits()).hasSize(2);
        Visit first = read.visits().get(0);
        assertThat(first.findings())
                .containsOnlyKeys("injury", "injury-days", "trend", "first-day", "strength", "fluid", "pain");
        assertThat(first.decision()).contains(new CaseFile.Decision(Urgency.URGENT, "seen by a colleague"));
        assertThat(first.notes()).isEqualTo("free text");
        assertThat(read.latest().date()).isEqualTo(LocalDate.of(2026, 3, 16));
        assertThat(read.on(LocalDate.of(2026, 3, 2))).contains(first);
        assertThat(read.on(LocalDate.of(2026, 3, 3))).isEmpty();
        CaseFile.Expectation expect = read.expect().orElseThrow();
        assertThat(expect.atLeast()).contains(Urgency.URGENT);
        assertThat(expect.urgency()).isEmpty();
        assertThat(expect.within()).isEqualTo(Map.of("some-condition", 3));
        assertThat(expect.never()).isEqualTo(List.of(Urgency.MANAGE_HERE));
    }

    @Test
    void aBareAnswerMeansThePainfulSide() throws Exception {
        Visit first = Sample.read(Sample.GOOD).visits().get(0);
        assertThat(first.findings().get("fluid"))
                .isEqualTo(new Recorded.Sides(Optional.of(Answer.State.ABSENT), Optional.empty()));
    }

    @Test
    void aValueIsKeptInTheCataloguesUnitAndAsItWasWritten() throws Exception {
        Visit first = Sample.read(Sample.GOOD).visits().get(0);
        Answer.Quantity left =
                (Answer.Quantity) first.findings().get("strength").on(Side.LEFT).orElseThrow();
        // 12 x 9.80665 N, standard gravity of the 3rd General Conference on Weights and Measures, 1901 (recalled).
        assertThat(left.value()).isCloseTo(117.6798, within(1e-9));
        assertThat(left.text()).isEqualTo("12 kgf");
        Answer.Quantity days = (Answer.Quantity)
                first.findings().get("injury-days").on(Side.LEFT).orElseThrow();
        assertThat(days.value()).isEqualTo(7);
    }

    @Test
    void aByteOrderMarkAndWindowsLineEndsDoNotMatter() throws Exception {
        assertThat(Sample.read("\uFEFF" + Sample.GOOD.replace("\n", "\r\n"))).isEqualTo(Sample.read(Sample.GOOD));
    }
}
