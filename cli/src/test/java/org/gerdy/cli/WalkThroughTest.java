package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;

/** The walk-through of docs/rule-author-walkthrough.md, step by step. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class WalkThroughTest {
    @TempDir
    static Path directory;

    private static Path rules() {
        return directory.resolve("my-rules");
    }

    private static String changedCase() {
        return Ran.root("cases/boundary/illness-temperature-meets.yaml").toString();
    }

    @Test
    @Order(1)
    void a_cut_off_is_changed_in_a_copy_and_the_audit_shows_whose_urgency_fell_and_why() throws Exception {
        copy(Ran.rules(), rules());
        Path terms = rules().resolve("knowledge/red-flag-terms.csv");
        String text = Files.readString(terms);
        assertThat(text).contains("temperature>=38");
        Files.writeString(terms, text.replaceFirst("temperature>=38(\\.0)?", "temperature>=38.5"));
        Path fever = directory.resolve("fever.yaml");
        Files.writeString(fever, feverCase("fever-38-2", "38.2 C", "same-day"));
        Ran ran = Ran.gerdy("audit", fever.toString(), "--rules", rules().toString(), "--against", "shipped");
        assertThat(ran.code()).isEqualTo(3);
        assertThat(ran.out()).contains("URGENCY FELL IN 1 CASE");
        assertThat(ran.out()).contains("fever-38-2: from same-day to urgent");
        assertThat(ran.out()).contains("red-flag-terms.csv: measured-fever");
    }

    @Test
    @Order(2)
    void the_owner_decides_writes_the_missing_case_and_signs_off() throws Exception {
        Path fever = directory.resolve("fever.yaml");
        Files.writeString(fever, feverCase("fever-38-2", "38.2 C", "urgent"));
        Files.writeString(directory.resolve("fever-high.yaml"), feverCase("fever-38-5", "38.5 C", "same-day"));
        Ran ran = Ran.gerdy(
                "audit",
                fever.toString(),
                directory.resolve("fever-high.yaml").toString(),
                "--rules",
                rules().toString(),
                "--log",
                directory.resolve("log.jsonl").toString(),
                "--sign-off",
                "lead clinician",
                "--reason",
                "Local laboratory policy");
        assertThat(ran.out()).contains("All 2 cases hold.").contains("Signed off by the lead clinician as entry 1");
        assertThat(ran.code()).isZero();
        Ran again = Ran.gerdy(
                "audit",
                fever.toString(),
                "--rules",
                rules().toString(),
                "--log",
                directory.resolve("log.jsonl").toString(),
                "--sign-off",
                "clinic director",
                "--reason",
                "Second reading");
        assertThat(again.code()).isZero();
    }

    @Test
    @Order(3)
    void the_log_verifies_and_every_edit_removal_and_reordering_shows() throws Exception {
        Path log = directory.resolve("log.jsonl");
        Ran ran = Ran.gerdy("audit", "--verify-log", log.toString(), "--rules", rules().toString());
        assertThat(ran.code()).isZero();
        assertThat(ran.out()).contains("2 entries, every link holds").contains("is the one signed off last");
        List<String> lines = Files.readAllLines(log);
        broken(log, lines.get(0).replace("laboratory", "pharmacy"), lines.get(1));
        broken(log, lines.get(1));
        broken(log, lines.get(1), lines.get(0));
        broken(log, lines.get(0), lines.get(0), lines.get(1));
        // An entry cut off the end leaves a chain that holds; the hash noted elsewhere tells.
        Path shorter = directory.resolve("shorter.jsonl");
        Files.writeString(shorter, lines.get(0) + "\n");
        String hash = ran.out().replaceAll("(?s).*Last hash ([0-9a-f]{64}).*", "$1");
        assertThat(Ran.gerdy("audit", "--verify-log", shorter.toString(), "--last-hash", hash)
                        .code())
                .isEqualTo(1);
    }

    private static void broken(Path log, String... lines) throws IOException {
        Path copy = log.resolveSibling("tampered.jsonl");
        Files.writeString(copy, String.join("\n", lines) + "\n");
        Ran ran = Ran.gerdy("audit", "--verify-log", copy.toString());
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err()).contains("tampered.jsonl:");
    }

    @Test
    @Order(4)
    void the_rules_an_assessment_names_reproduce_it_byte_for_byte_from_directory_archive_and_revision()
            throws Exception {
        String shipped = Ran.gerdy("triage", "--format", "json", changedCase()).out();
        assertThat(Ran.gerdy(
                                "triage",
                                "--format",
                                "json",
                                "--rules",
                                Ran.rules().toString(),
                                changedCase())
                        .out())
                .isEqualTo(shipped);
        Path zip = directory.resolve("rules.zip");
        try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(zip));
                Stream<Path> files = Files.walk(Ran.rules())) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                out.putNextEntry(new ZipEntry(
                        "deep/inside/" + Ran.rules().relativize(file).toString().replace('\\', '/')));
                out.write(Files.readAllBytes(file));
            }
        }
        assertThat(Ran.gerdy("triage", "--format", "json", "--rules", zip.toString(), changedCase())
                        .out())
                .isEqualTo(shipped);
    }

    @Test
    @Order(5)
    void a_place_that_holds_no_knowledge_base_is_told_plainly() {
        assertThat(Ran.gerdy("audit", changedCase(), "--against", directory + "/nowhere")
                        .err())
                .contains("There is no such directory or archive");
        assertThat(Ran.gerdy("audit", changedCase(), "--against", "git:no-such-revision")
                        .err())
                .contains("Git says");
    }

    private static String feverCase(String id, String temperature, String urgency) {
        return """
                gerdy: 1
                case: %s
                title: A feverish runner with a dry knee
                patient: {age: 40}
                visits:
                  - date: 2026-03-02
                    side: left
                    findings: {systemic-symptoms: present, temperature: %s}
                expect: {urgency: %s}
                """.formatted(id, temperature, urgency);
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Path target = to.resolve(from.relativize(file).toString());
                Files.createDirectories(target.getParent());
                Files.copy(file, target);
            }
        }
    }
}
