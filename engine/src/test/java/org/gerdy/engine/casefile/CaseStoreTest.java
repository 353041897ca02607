package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.YesNo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One case file held by one window: whole saves, polite refusals, nothing lost. */
class CaseStoreTest {
    private static final int SIGNS = 40;

    @TempDir
    Path directory;

    private final CaseReader reader = new CaseReader(terms());

    private static Terms terms() {
        List<FindingDefinition> findings = new ArrayList<>();
        for (int i = 0; i < SIGNS; i++) {
            findings.add(YesNo.question("sign-" + i));
        }
        return new Terms(Catalogue.of(findings, List.of()), Set.of(), Set.of(), Set.of(), List.of());
    }

    private static CaseFile withAnswers(int count) {
        Map<String, Recorded> findings = new LinkedHashMap<>();
        for (int i = 0; i < count; i++) {
            findings.put("sign-" + i, new Recorded.Whole(i % 2 == 0 ? Answer.State.PRESENT : Answer.State.ABSENT));
        }
        Visit visit = new Visit(LocalDate.of(2026, 3, 2), Side.LEFT, findings, "", Optional.empty());
        return new CaseFile("invented", "", "", Map.of(), List.of(visit), Optional.empty());
    }

    @Test
    void whatWasSavedIsReadBackEqual() throws Exception {
        Path file = directory.resolve("case.yaml");
        try (CaseStore store = CaseStore.open(file, reader)) {
            store.save(withAnswers(3));
            store.save(withAnswers(7));
        }
        assertThat(reader.read(file)).isEqualTo(withAnswers(7));
        assertThat(directory.toFile().list()).containsExactly("case.yaml");
    }

    @Test
    void commentsAndUnreadPartsOfTheFileStayWhereTheyWere() throws Exception {
        Path file = directory.resolve("case.yaml");
        Files.writeString(file, """
                # kept by hand
                gerdy: 1
                case: invented
                label: {danger: true}
                visits:
                  - date: 2026-03-02
                    side: left
                    findings:
                      # first look
                      sign-0: present
                """);
        try (CaseStore store = CaseStore.open(file, reader)) {
            store.save(withAnswers(2));
        }
        assertThat(Files.readString(file)).isEqualTo("""
                # kept by hand
                gerdy: 1
                case: invented
                label: {danger: true}
                visits:
                  - date: 2026-03-02
                    side: left
                    findings:
                      # first look
                      sign-0: present
                      sign-1: absent
                """);
    }

    @Test
    void aJsonCaseStaysJson() throws Exception {
        Path file = directory.resolve("case.json");
        Files.writeString(
                file,
                "{\"gerdy\": 1, \"case\": \"invented\", \"visits\": [{\"date\": \"2026-03-02\", \"side\": \"left\"}]}");
        try (CaseStore store = CaseStore.open(file, reader)) {
            store.save(withAnswers(4));
        }
        assertThat(Files.readString(file)).startsWith("{");
        assertThat(reader.read(file)).isEqualTo(withAnswers(4));
    }

    @Test
    void aSecondWindowIsRefusedWhileTheFirstHoldsTheCase() throws Exception {
        Path file = directory.resolve("case.yaml");
        try (CaseStore first = CaseStore.open(file, reader)) {
            first.save(withAnswers(1));
            assertThatThrownBy(() -> CaseStore.open(file, reader))
                    .isInstanceOf(MendableException.class)
                    .hasMessageContaining("Another window has this case open");
        }
        try (CaseStore second = CaseStore.open(file, reader)) {
            assertThat(second.caseFile()).contains(withAnswers(1));
        }
    }

    @Test
    void aFileThatDoesNotLoadIsNeverOverwritten() throws Exception {
        Path file = directory.resolve("case.yaml");
        Files.writeString(file, "gerdy: 1\ncase: invented\nvisits: nonsense\n");
        assertThatThrownBy(() -> CaseStore.open(file, reader)).isInstanceOf(MendableException.class);
        assertThat(Files.readString(file)).isEqualTo("gerdy: 1\ncase: invented\nvisits: nonsense\n");
        assertThat(directory.toFile().list()).containsExactly("case.yaml");
    }

    @Test
    void aFileChangedByAnotherProgramIsNotOverwritten() throws Exception {
        Path file = directory.resolve("case.yaml");
        try (CaseStore store = CaseStore.open(file, reader)) {
            store.save(withAnswers(1));
            Files.writeString(file, Files.readString(file) + "# by hand\n");
            assertThatThrownBy(() -> store.save(withAnswers(2))).hasMessageContaining("Another program changed");
            assertThat(Files.readString(file)).endsWith("# by hand\n");
        }
    }

    @Test
    void aFullDiskIsToldAndTheOldFileStandsAndTheAnswerCanBeSavedLater() throws Exception {
        Path file = directory.resolve("case.yaml");
        boolean[] full = {false};
        Disk disk = (target, bytes) -> {
            if (full[0]) {
                throw new IOException("No space left on device");
            }
            Disk.REAL.replace(target, bytes);
        };
        try (CaseStore store = CaseStore.open(file, reader, disk)) {
            store.save(withAnswers(5));
            full[0] = true;
            assertThatThrownBy(() -> store.save(withAnswers(6))).hasMessageContaining("the disk is full");
            assertThat(reader.read(file)).isEqualTo(withAnswers(5));
            full[0] = false;
            store.save(withAnswers(6));
        }
        assertThat(reader.read(file)).isEqualTo(withAnswers(6));
    }

    @Test
    void aReadOnlyPlaceIsToldInWords() throws Exception {
        Path file = directory.resolve("case.yaml");
        Disk disk = (target, bytes) -> {
            throw new AccessDeniedException(target.toString());
        };
        try (CaseStore store = CaseStore.open(file, reader, disk)) {
            assertThatThrownBy(() -> store.save(withAnswers(1))).hasMessageContaining("this place is read-only");
        }
    }

    @Test
    void whereTheIntakeStoodIsKeptBesideTheCase() throws Exception {
        Path file = directory.resolve("case.yaml");
        try (CaseStore store = CaseStore.open(file, reader)) {
            store.keepProgress("later sign-3\n");
        }
        try (CaseStore store = CaseStore.open(file, reader)) {
            assertThat(store.progress()).isEqualTo("later sign-3\n");
            store.keepProgress("");
        }
        assertThat(directory.toFile().list()).isEmpty();
    }

    /**
     * The power goes off at a random byte, flush or rename of a save. What was accepted before is there, the file can be
     * read, and it holds either the answer that was on its way or not, never half of it.
     */
    @Test
    void afterOneHundredAndEightyCutsAtRandomMomentsNoAcceptedAnswerIsMissing() throws Exception {
        Random random = new Random(20260302);
        for (int cut = 0; cut < 180; cut++) {
            Path file = directory.resolve("cut-" + cut + ".yaml");
            int until = 1 + random.nextInt(SIGNS - 1);
            double moment = random.nextDouble();
            int[] saves = {0};
            Disk disk = (target, bytes) -> {
                if (saves[0]++ == until) {
                    breakOff(target, bytes, moment);
                }
                Disk.REAL.replace(target, bytes);
            };
            int accepted = 0;
            CaseStore store = CaseStore.open(file, reader, disk);
            try {
                for (int answers = 0; answers <= SIGNS; answers++) {
                    store.save(withAnswers(answers));
                    accepted = answers;
                }
            } catch (PowerOff e) {
                // Nothing is tidied up: that is what the cut means.
            }
            store.close();
            int known = accepted;
            assertThat(reader.read(file))
                    .as("cut %s", cut)
                    .satisfiesAnyOf(there -> assertThat(there).isEqualTo(withAnswers(known)), there -> assertThat(there)
                            .isEqualTo(withAnswers(known + 1)));
            try (CaseStore again = CaseStore.open(file, reader)) {
                again.save(withAnswers(SIGNS));
            }
            assertThat(reader.read(file)).isEqualTo(withAnswers(SIGNS));
        }
    }

    /** Leaves behind what a save leaves when it ends at this moment: part of the new file beside, or the rename done. */
    private static void breakOff(Path file, byte[] bytes, double moment) throws IOException {
        Path beside = file.resolveSibling("." + file.getFileName() + ".saving");
        if (moment < 0.8) {
            int written = (int) (bytes.length * moment / 0.8);
            Files.write(beside, java.util.Arrays.copyOf(bytes, written));
        } else if (moment < 0.9) {
            Files.write(beside, bytes);
        } else {
            Files.write(beside, bytes);
            Files.move(beside, file, java.nio.file.StandardCopyOption.ATOMIC_MOVE);
        }
        throw new PowerOff();
    }

    private static final class PowerOff extends RuntimeException {
        private static final long serialVersionUID = 1L;
    }
}
