package org.gerdy.engine.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.Settings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ProgressTest {
    private static final Settings SETTINGS = new Settings(Map.of("repeat-good", 80.0, "repeat-grade-step", 15.0));

    @TempDir
    Path directory;

    private static Progress.Played played(double total, boolean dangerous, boolean under) {
        return new Progress.Played(
                LocalDate.of(2026, 3, 2),
                "12",
                List.of("one-cause"),
                "textbook",
                total,
                dangerous,
                under,
                Map.of("safety", new double[] {20, 40}),
                Map.of("one-cause", 0.4),
                17);
    }

    @Test
    void whatIsSavedIsReadAgain() throws MendableException {
        new Progress("heron", List.of()).with(played(71.25, true, false)).save(directory);
        Progress read = Progress.read(directory, "heron");
        assertThat(read.played()).hasSize(1);
        Progress.Played one = read.played().get(0);
        assertThat(one.total()).isEqualTo(71.25);
        assertThat(one.parts().get("safety")).containsExactly(20, 40);
        assertThat(one.confidences()).containsEntry("one-cause", 0.4);
        assertThat(one.questions()).isEqualTo(17);
    }

    @Test
    void aFileThatCannotBeReadIsNotWrittenOver() throws IOException {
        Path file = Progress.file(directory, "heron");
        Files.writeString(file, "{ half a fi");
        assertThatThrownBy(() -> Progress.read(directory, "heron")).isInstanceOf(MendableException.class);
        assertThat(file).hasContent("{ half a fi");
    }

    @Test
    void savingLeavesNoOtherFileBehind() throws IOException, MendableException {
        new Progress("heron", List.of(played(50, false, false))).save(directory);
        try (var files = Files.list(directory)) {
            assertThat(files).containsExactly(Progress.file(directory, "heron"));
        }
    }

    @Test
    void aNameWithACapitalOrAPathIsNoPseudonym() {
        for (String name : List.of("Anna", "../heron", "a", "her on")) {
            assertThatThrownBy(() -> Progress.read(directory, name))
                    .isInstanceOf(MendableException.class)
                    .hasMessageContaining("pseudonym");
        }
    }

    @Test
    void aGoodScoreIsGradeFiveAndEachStepBelowCostsOne() {
        assertThat(Progress.grade(played(80, false, false), SETTINGS)).isEqualTo(5);
        assertThat(Progress.grade(played(79.9, false, false), SETTINGS)).isEqualTo(4);
        assertThat(Progress.grade(played(65, false, false), SETTINGS)).isEqualTo(4);
        assertThat(Progress.grade(played(50, false, false), SETTINGS)).isEqualTo(3);
        assertThat(Progress.grade(played(0, false, false), SETTINGS)).isZero();
    }

    @Test
    void aDangerousCaseUnderTriagedStartsOver() {
        assertThat(Progress.grade(played(90, true, true), SETTINGS)).isEqualTo(2);
        Progress progress = new Progress("heron", List.of(played(90, true, true)));
        assertThat(progress.schedule(SETTINGS).get("one-cause").due()).isEqualTo(LocalDate.of(2026, 3, 3));
    }
}
