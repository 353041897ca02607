package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.gerdy.engine.audit.Cohort;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.drill.DrillTables;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BatchTest {
    @TempDir
    private Path directory;

    private static String line(int number) {
        return "{\"gerdy\":1,\"case\":\"b-" + number + "\",\"visits\":[{\"date\":\"2026-03-02\",\"side\":\"left\","
                + "\"findings\":{\"four-steps-now\":\"" + (number % 2 == 0 ? "present" : "absent") + "\"}}]}";
    }

    private Path input(int count, int badAt) throws Exception {
        List<String> lines = new ArrayList<>();
        for (int i = 1; i <= count; i++) {
            lines.add(i == badAt ? "{\"gerdy\":1,\"case\":" : line(i));
        }
        Path file = directory.resolve("cases.jsonl");
        Files.writeString(file, String.join("\n", lines) + "\n");
        return file;
    }

    @Test
    void answers_come_in_the_order_of_the_lines() throws Exception {
        Ran ran = Ran.gerdy("triage", "--batch", input(150, 0).toString());
        assertThat(ran.code()).isZero();
        List<String> lines = ran.out().lines().toList();
        assertThat(lines).hasSize(150);
        for (int i = 0; i < 150; i++) {
            assertThat(lines.get(i)).startsWith("{\"case\":\"b-" + (i + 1) + "\"");
        }
    }

    @Test
    void a_bad_line_becomes_an_error_record_with_its_number_and_the_rest_goes_on() throws Exception {
        Ran ran = Ran.gerdy("triage", "--batch", input(70, 41).toString());
        assertThat(ran.code()).isEqualTo(1);
        List<String> lines = ran.out().lines().toList();
        assertThat(lines).hasSize(70);
        assertThat(lines.get(40)).startsWith("{\"line\":41,\"errors\":[");
        assertThat(lines.get(69)).startsWith("{\"case\":\"b-70\"");
    }

    @Test
    void a_batch_cut_short_goes_on_where_it_stopped_and_ends_with_the_same_bytes() throws Exception {
        Path in = input(90, 5);
        Path whole = directory.resolve("whole.jsonl");
        Path part = directory.resolve("part.jsonl");
        assertThat(Ran.gerdy("triage", "--batch", in.toString(), "--out", whole.toString())
                        .code())
                .isEqualTo(1);
        byte[] all = Files.readAllBytes(whole);
        Files.write(part, java.util.Arrays.copyOf(all, all.length / 2));
        Ran.gerdy("triage", "--batch", in.toString(), "--out", part.toString(), "--resume");
        assertThat(Files.readString(part)).isEqualTo(new String(all, StandardCharsets.UTF_8));
    }

    @Test
    void records_of_another_knowledge_base_are_not_gone_on_with() throws Exception {
        Path part = directory.resolve("part.jsonl");
        Files.writeString(part, "{\"case\":\"b-1\",\"knowledge\":{\"sha256\":\"" + "0".repeat(64) + "\"}}\n");
        Ran ran = Ran.gerdy("triage", "--batch", input(3, 0).toString(), "--out", part.toString(), "--resume");
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err()).contains("start a new file");
    }

    @Test
    void the_same_number_draws_the_same_patients() throws Exception {
        Path one = directory.resolve("one.jsonl");
        Path two = directory.resolve("two.jsonl");
        Ran.gerdy("simulate", "--cases", "60", "--seed", "4", "--write", one.toString());
        Ran.gerdy("simulate", "--cases", "60", "--seed", "4", "--write", two.toString());
        assertThat(Files.readString(one)).isEqualTo(Files.readString(two));
        Ran ran = Ran.gerdy("triage", "--batch", one.toString());
        assertThat(ran.code()).isZero();
    }

    @Test
    void no_simulated_patient_holds_answers_that_cannot_stand_together() {
        KnowledgeBase knowledge = LateralKnee.gerdy().knowledge();
        Cohort.Source source = new Cohort.Source(knowledge, DrillTables.load(LateralKnee.files(), knowledge));
        ClashFinder clashes = new ClashFinder(knowledge.terms());
        Cohort.Draw draw = new Cohort.Draw(Ran.thorough() ? 100_000 : 3000, 1, Optional.empty(), false, false);
        for (int i = 0; i < draw.cases(); i++) {
            Map<String, Recorded> answers = source.answers(draw, i);
            assertThat(clashes.clashes(Observations.of(knowledge.catalogue(), Side.LEFT, answers)))
                    .as("patient %s: %s", i, answers)
                    .isEmpty();
        }
    }

    @Test
    void no_dangerous_condition_with_a_sign_and_complete_answers_gets_the_lowest_urgency() {
        noneMissed("--cases", Ran.thorough() ? "100000" : "2000");
    }

    @Test
    void nor_does_any_when_each_dangerous_condition_is_drawn_as_often_as_any_other() {
        noneMissed("--dangerous", "--cases", Ran.thorough() ? "300000" : "5000");
    }

    private static void noneMissed(String... whom) {
        String[] all = Stream.concat(Stream.of("simulate", "--complete", "--perturb", "0"), Stream.of(whom))
                .toArray(String[]::new);
        Ran ran = Ran.gerdy(all);
        assertThat(ran.out()).doesNotContain("Missed:").contains("not whether it is true of patients");
        assertThat(ran.code()).isZero();
    }
}
