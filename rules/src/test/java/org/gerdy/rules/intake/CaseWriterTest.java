package org.gerdy.rules.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.NotBlank;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseWriter;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is written is read back equal, and what a change does not touch stays. */
class CaseWriterTest {
    @Test
    void everyCaseOfTheRepositoryIsReadBackEqualAndKeepsItsComments() throws Exception {
        int same = 0;
        List<Path> files = Cases.in("boundary", "demo", "published", "teaching");
        for (Path file : files) {
            byte[] bytes = Files.readAllBytes(file);
            CaseFile caseFile = Cases.GERDY.read(file);
            if (findingsOnly(caseFile)) {
                assertThat(read(CaseWriter.write(caseFile)))
                        .as("%s written anew", file)
                        .isEqualTo(caseFile);
            } else {
                assertThatThrownBy(() -> CaseWriter.write(caseFile)).isInstanceOf(IllegalArgumentException.class);
            }
            byte[] updated = CaseWriter.update(bytes, caseFile, caseFile);
            if (caseFile.visits().stream().noneMatch(visit -> visit.runs().isPresent())) {
                assertThat(read(updated)).as("%s updated", file).isEqualTo(caseFile);
            }
            assertThat(comments(updated)).as("%s comments", file).isEqualTo(comments(bytes));
            assertThat(new String(updated, StandardCharsets.UTF_8).contains("label:"))
                    .isEqualTo(new String(bytes, StandardCharsets.UTF_8).contains("label:"));
            same += java.util.Arrays.equals(bytes, updated) ? 1 : 0;
        }
        System.out.println(same + " of " + files.size() + " case files are the same to the byte after an empty change");
        assertThat(same).isGreaterThan(files.size() * 9 / 10);
    }

    private static boolean findingsOnly(CaseFile caseFile) {
        return caseFile.expect().map(expect -> expect.detail().isEmpty()).orElse(true)
                && caseFile.visits().stream()
                        .allMatch(visit -> visit.equals(new Visit(
                                visit.date(), visit.side(), visit.findings(), visit.notes(), visit.decision())));
    }

    private static List<String> comments(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8)
                .lines()
                .map(String::strip)
                .filter(line -> line.startsWith("#"))
                .toList();
    }

    @Property(tries = 300)
    void aRandomCaseIsReadBackEqualHoweverItIsChanged(
            @ForAll long chance, @ForAll @NotBlank String title, @ForAll String notes) throws Exception {
        Random random = new Random(chance);
        CaseFile first = random(random, printable(title), printable(notes));
        byte[] written = CaseWriter.write(first);
        assertThat(read(written)).isEqualTo(first);
        CaseFile second = random(random, printable(notes), printable(title));
        assertThat(read(CaseWriter.update(written, first, second))).isEqualTo(second);
    }

    @ParameterizedTest
    @ValueSource(strings = {"2", "-1.5", "2026-09-14", "yes", "null", "0x1F", "1e3", "~", "a: b", "# no remark"})
    void aRemarkThatLooksLikeSomethingElseStaysText(String text) throws Exception {
        Visit visit = new Visit(
                LocalDate.of(2026, 9, 14),
                Side.LEFT,
                Map.of(),
                text,
                Optional.of(new CaseFile.Decision(Urgency.URGENT, text)));
        CaseFile caseFile = new CaseFile("1", text, text, Map.of(), List.of(visit), Optional.empty());
        assertThat(read(CaseWriter.write(caseFile))).isEqualTo(caseFile);
        byte[] json = "{\"gerdy\": 1, \"case\": \"1\", \"visits\": [{\"date\": \"2026-09-14\", \"side\": \"left\"}]}"
                .getBytes(StandardCharsets.UTF_8);
        assertThat(read(CaseWriter.update(json, read(json), caseFile))).isEqualTo(caseFile);
    }

    /** What YAML can carry, in one piece: no control characters, no half characters, no blank ends. */
    private static String printable(String text) {
        return text.codePoints()
                .filter(one -> one == '\n' || (one >= ' ' && one < 0xD800 && !(one >= 0x7F && one < 0xA0)))
                .filter(one -> one != 0x2028 && one != 0x2029 && one != 0xFEFF)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString()
                .lines()
                .map(String::strip)
                .reduce("", (a, b) -> a.isEmpty() ? b : a + "\n" + b)
                .strip();
    }

    private static CaseFile random(Random random, String title, String notes) {
        Map<String, Recorded> patient = new LinkedHashMap<>();
        for (String id : List.of("age", "sex", "mass", "history-of-cancer")) {
            if (random.nextBoolean()) {
                patient.put(id, RandomAnswers.of(random, id, Side.LEFT));
            }
        }
        List<Visit> visits = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(3); i++) {
            Side side = Side.values()[random.nextInt(3)];
            Map<String, Recorded> findings = RandomAnswers.some(random, side, 15);
            findings.keySet().removeAll(patient.keySet());
            Optional<CaseFile.Decision> decision = random.nextBoolean()
                    ? Optional.empty()
                    : Optional.of(new CaseFile.Decision(Urgency.URGENT, "The clinic is near; seen tomorrow."));
            visits.add(new Visit(LocalDate.of(2026, 1 + i, 5), side, findings, i == 0 ? notes : "", decision));
        }
        return new CaseFile("invented-1", title, "", patient, visits, Optional.empty());
    }

    private static CaseFile read(byte[] bytes) throws Exception {
        return Cases.GERDY.reader().read("written", bytes);
    }
}
