package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.gerdy.engine.load.LoadHistory;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.load.LoadSettings;
import org.junit.jupiter.api.Test;

class LoadTableTest {
    private static final LoadSettings SETTINGS =
            new LoadSettings(7, 28, 30, 24, List.of(10, 30, 100), 56, 10, 120, 3, 30, 12, 0.5, 10, 300, 3, 5, 120);

    private static String text(boolean gap) {
        LocalDate first = LocalDate.of(2026, 3, 2);
        List<Session> sessions = new ArrayList<>();
        for (int i = 0; i < 35; i++) {
            if (!gap || i != 33) {
                sessions.add(Session.written(
                        first.plusDays(i),
                        OptionalLong.of(i == 34 ? 15_000 : 8000),
                        OptionalLong.empty(),
                        OptionalDouble.empty()));
            }
        }
        LoadHistory history = LoadHistory.of(
                List.of(new RunLog(sessions, Set.of(), List.of())), LoadHistory.Unlisted.UNKNOWN, SETTINGS);
        return new LoadTable(4).text(LoadReport.of(history, history.last(), Optional.empty(), SETTINGS));
    }

    @Test
    void weeksCarryTheirNumbersBesideTheBar() {
        assertThat(text(false))
                .contains("week from      km runs longest  0          40          80\n")
                .contains("2026-03-30   63.0    7    15.0  |=================== moderate spike +88 %\n")
                .contains("2026-03-09   56.0    7     8.0  |=================\n")
                .contains("2026-04-05    15.0 km, longest before 8.0 km, moderate spike +88 %\n");
    }

    @Test
    void whatIsMissingIsSaidAndNothingIsAnAlarm() {
        assertThat(text(true))
                .contains("1 day unknown")
                .contains("Needs 7 days with a distance or rest up to 2026-04-05; 6 are known.")
                .endsWith("None of them is a risk, an alarm or a cause.\n");
    }
}
