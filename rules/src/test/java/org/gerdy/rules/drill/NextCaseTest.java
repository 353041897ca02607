package org.gerdy.rules.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.gerdy.engine.drill.Difficulty;
import org.gerdy.engine.drill.NextCase;
import org.gerdy.engine.drill.PatientMaker;
import org.gerdy.engine.drill.Progress;
import org.junit.jupiter.api.Test;

class NextCaseTest {
    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);
    private static final NextCase NEXT = new NextCase(DrillSchool.MAKER, DrillSchool.TABLES);

    private static Progress played(Progress before, long number, double score) {
        PatientMaker.Draw draw = DrillSchool.MAKER.draw(number);
        return before.with(new Progress.Played(
                TODAY,
                Long.toString(number),
                List.of(draw.condition()),
                draw.difficulty().word(),
                score,
                false,
                false,
                Map.of(),
                Map.of(),
                10));
    }

    @Test
    void noPatientAndNoPairOfConditionAndDifficultyRepeatsUntilAllWereMet() {
        Progress progress = new Progress("heron", List.of());
        int pool = DrillSchool.MAKER.conditions().size() * Difficulty.values().length;
        Set<PatientMaker.Draw> met = new HashSet<>();
        Set<Long> numbers = new HashSet<>();
        for (int i = 0; i < pool; i++) {
            long number = NEXT.seed(progress, TODAY);
            assertThat(numbers.add(number)).as("number %d", number).isTrue();
            assertThat(met.add(DrillSchool.MAKER.draw(number)))
                    .as("%s after %d", DrillSchool.MAKER.draw(number), i)
                    .isTrue();
            progress = played(progress, number, 95);
        }
        assertThat(numbers).doesNotContain(NEXT.seed(progress, TODAY));
    }

    @Test
    void aWeakConditionComesBackBeforeOneThatWentWell() {
        Progress progress = new Progress("heron", List.of());
        long well = NEXT.seed(progress, TODAY);
        progress = played(progress, well, 95);
        progress = played(progress, well, 95);
        long weak = NEXT.seed(progress, TODAY);
        progress = played(progress, weak, 20);
        String failed = DrillSchool.MAKER.draw(weak).condition();
        assertThat(failed).isNotEqualTo(DrillSchool.MAKER.draw(well).condition());
        long tomorrow = NEXT.seed(progress, TODAY.plusDays(1));
        assertThat(DrillSchool.MAKER.draw(tomorrow).condition()).isEqualTo(failed);
        assertThat(tomorrow).isNotEqualTo(weak);
    }
}
