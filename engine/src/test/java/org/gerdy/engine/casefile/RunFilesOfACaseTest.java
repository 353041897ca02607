package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.vocabulary.Catalogue;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RunFilesOfACaseTest {
    private static final Terms TERMS =
            new Terms(Catalogue.of(List.of(), List.of()), Set.of(), Set.of(), Set.of(), List.of());

    @TempDir
    private Path directory = Path.of(".");

    private final List<ZoneId> zones = new ArrayList<>();

    private CaseReader reader() {
        return new CaseReader(TERMS, (file, zone) -> {
            zones.add(zone);
            if (file.endsWith("bad.csv")) {
                throw new MendableException(List.of(new Problem("bad.csv", 3, 7, "This cell is wrong.")));
            }
            Session session = Session.written(
                    LocalDate.of(2026, 3, 1), OptionalLong.of(5000), OptionalLong.empty(), OptionalDouble.empty());
            return new RunLog(List.of(session), Set.of(), List.of());
        });
    }

    private static String caseNaming(String name) {
        return """
                gerdy: 1
                case: named
                visits:
                  - date: 2026-03-02
                    side: left
                    runs:
                      files: ["%s"]
                """.formatted(name);
    }

    private Path written(String runFile) throws IOException {
        return Files.writeString(directory.resolve("case.yaml"), caseNaming(runFile));
    }

    private String fault(String runFile) throws IOException {
        List<Problem> problems = reader().check(written(runFile));
        assertThat(problems).hasSize(1);
        return problems.get(0).toString();
    }

    @Test
    void aFileBesideTheCaseIsReadOnceInTheNamedZone() throws Exception {
        Files.writeString(directory.resolve("diary.csv"), "x");
        CaseFile caseFile = reader().read(written("diary.csv"));
        RunNotes runs = caseFile.latest().runs().orElseThrow();
        assertThat(runs.files()).hasSize(1);
        assertThat(runs.files().get(0).name()).isEqualTo("diary.csv");
        assertThat(runs.files().get(0).log().sessions()).hasSize(1);
        assertThat(zones).containsExactly(ZoneOffset.UTC);
    }

    @Test
    void aMissingFileIsToldAtItsLineAndColumn() throws IOException {
        assertThat(fault("diary.csv"))
                .contains("case.yaml:7:15: There is no file '")
                .endsWith("diary.csv'; check its name.");
    }

    @Test
    void namesThatLeaveTheDirectoryAreRefused() throws IOException {
        for (String name : List.of("../other.csv", "sub/../../other.csv", "/etc/hostname", "C:/diary.csv")) {
            assertThat(fault(name)).contains(":7:15: '" + name + "' leads out of the directory of the case");
        }
    }

    @Test
    void aLinkOutOfTheDirectoryIsRefused(@TempDir Path elsewhere) throws IOException {
        Path secret = Files.writeString(elsewhere.resolve("secret.csv"), "x");
        Files.createSymbolicLink(directory.resolve("link.csv"), secret);
        assertThat(fault("link.csv")).contains("is a link out of the directory");
    }

    @Test
    void aDirectoryAndABlankNameAreNoFiles() throws IOException {
        Files.createDirectory(directory.resolve("runs"));
        assertThat(fault("runs")).contains("is not a file; name a diary");
        assertThat(fault(" ")).contains("The name of the file is blank");
    }

    @Test
    void aFileLargerThanTheLimitIsRefusedUnread() throws IOException {
        try (RandomAccessFile large =
                new RandomAccessFile(directory.resolve("large.gpx").toFile(), "rw")) {
            large.setLength(64L * 1024 * 1024 + 1);
        }
        assertThat(fault("large.gpx")).contains("is larger than 64 MB, the most a case may name");
        assertThat(zones).isEmpty();
    }

    @Test
    void faultsInsideARunFileCarryItsOwnPathAndLine() throws IOException {
        Files.writeString(directory.resolve("bad.csv"), "x");
        assertThat(fault("bad.csv")).isEqualTo(directory.resolve("bad.csv") + ":3:7: This cell is wrong.");
    }

    @Test
    void aCaseFromAStreamMayNotNameFiles() {
        byte[] bytes = caseNaming("diary.csv").getBytes(StandardCharsets.UTF_8);
        assertThatThrownBy(() -> reader().read("standard input", new ByteArrayInputStream(bytes)))
                .isInstanceOf(MendableException.class)
                .hasMessageContaining("standard input:7:15: 'diary.csv' cannot be looked for")
                .hasMessageContaining("write its runs under 'sessions'");
        assertThat(zones).isEmpty();
    }

    @Test
    void aMisspeltKeyUnderRunsNamesTheNearest() {
        byte[] bytes = caseNaming("diary.csv").replace("files:", "fils:").getBytes(StandardCharsets.UTF_8);
        assertThat(reader().check("standard input", new ByteArrayInputStream(bytes)))
                .extracting(Problem::toString)
                .containsExactly("standard input:7:13: 'fils' is not a key that stands here; did you mean 'files'?");
    }

    @Test
    void aWrongWordForUnlistedDaysNamesTheWordsItTakes() {
        byte[] bytes = caseNaming("diary.csv")
                .replace("files: [\"diary.csv\"]", "unlisted: maybe")
                .getBytes(StandardCharsets.UTF_8);
        assertThat(reader().check("standard input", new ByteArrayInputStream(bytes)))
                .extracting(Problem::message)
                .containsExactly("'unlisted' is 'maybe'; it takes one of: rest, unknown.");
    }
}
