package org.gerdy.engine.load;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.RunNotes;
import org.gerdy.engine.casefile.Session;
import org.junit.jupiter.api.Test;

class RecordOfACaseTest {
    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    private static RunNotes.Entry entry(LocalDate day, long metres, int line) {
        return new RunNotes.Entry(
                day, OptionalLong.of(metres), OptionalLong.empty(), OptionalDouble.empty(), "", "", line);
    }

    private static RunNotes notes(boolean listed, List<RunNotes.RunFile> files, RunNotes.Entry... sessions) {
        return new RunNotes(Optional.empty(), listed, files, List.of(sessions), Set.of());
    }

    private static LoadHistory history(RunNotes... visits) {
        return LoadHistory.of("invented", List.of(visits), LoadFixtures.SETTINGS)
                .orElseThrow();
    }

    @Test
    void aFileNamedAtTwoVisitsAndASessionWrittenTwiceCountOnce() throws MendableException {
        RunNotes.RunFile diary =
                new RunNotes.RunFile("diary.csv", LoadFixtures.read("diary.csv", "date,distance_km\n2026-03-01,8\n"));
        LoadHistory history = history(
                notes(true, List.of(diary), entry(DAY, 5000, 9)), notes(true, List.of(diary), entry(DAY, 5000, 30)));
        assertThat(history.sessions()).hasSize(2);
        assertThat(history.on(DAY, LoadHistory.Amount.METRES)).hasValue(5000);
    }

    @Test
    void anUnlistedDayIsRestOnlyWhenEveryVisitSaysSo() {
        RunNotes first = notes(true, List.of(), entry(DAY, 5000, 9));
        RunNotes third = notes(true, List.of(), entry(DAY.plusDays(2), 5000, 9));
        RunNotes unsure = notes(false, List.of(), entry(DAY.plusDays(2), 5000, 9));
        assertThat(history(first, third).on(DAY.plusDays(1), LoadHistory.Amount.METRES))
                .hasValue(0);
        assertThat(history(first, unsure).on(DAY.plusDays(1), LoadHistory.Amount.METRES))
                .isEmpty();
    }

    @Test
    void clockTimesWithoutAZoneAreToldOfOnce() {
        Session clocked = new Session(
                DAY,
                Optional.of(OffsetDateTime.parse("2026-03-02T23:30:00Z")),
                OptionalLong.of(5000),
                OptionalLong.of(1500),
                OptionalLong.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                true,
                "",
                true,
                100,
                "watch.gpx");
        RunNotes.RunFile watch = new RunNotes.RunFile("watch.gpx", new RunLog(List.of(clocked), Set.of(), List.of()));
        assertThat(history(notes(true, List.of(watch)), notes(true, List.of(watch)))
                        .notes())
                .containsExactly("No time zone is given, so each day is taken in UTC; write 'zone' under runs.");
        RunNotes zoned =
                new RunNotes(Optional.of(ZoneId.of("Europe/London")), true, List.of(watch), List.of(), Set.of());
        assertThat(history(zoned).notes()).isEmpty();
    }

    @Test
    void nothingWrittenDownIsNoRecord() {
        assertThat(LoadHistory.of("invented", List.of(notes(true, List.of())), LoadFixtures.SETTINGS))
                .isEmpty();
    }
}
