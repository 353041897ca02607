package org.gerdy.engine.load;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.gerdy.engine.load.LoadHistory.Unlisted;
import org.junit.jupiter.api.Test;

class DiaryTest {
    @Test
    void kilometresAndMilesAreReadInTheirOwnColumns() throws MendableException {
        RunLog log = LoadFixtures.read("d.csv", """
                date,distance_km,distance_mi,duration,rpe
                2026-03-02,10.2,,0:55:10,4
                2026-03-03,,6,1:02:00,5
                """);
        assertThat(log.sessions().get(0).metres()).hasValue(10_200);
        assertThat(log.sessions().get(0).seconds()).hasValue(3310);
        // One mile is 1609.344 m by international definition
        assertThat(log.sessions().get(1).metres()).hasValue(9656);
        assertThat(log.sessions().get(1).effort()).hasValue(5);
    }

    @Test
    void aDistanceWithoutUnitIsRefusedAndEveryFaultIsTold() {
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", """
                date,distance,duration,rpe
                2026-03-02,10,55 min,4
                03/04/2026,10 km,55 min,4
                2026-03-04,6 mi,1:05,11
                """))
                .isInstanceOf(MendableException.class)
                .hasMessageContaining("d.csv:2: '10' has no unit")
                .hasMessageContaining("d.csv:3: '03/04/2026' is not a day")
                .hasMessageContaining("d.csv:4: '1:05' is not a duration")
                .hasMessageContaining("'11' in 'rpe'");
    }

    @Test
    void oneRowWithTwoDistancesIsRefused() {
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", "date,distance_km,distance_mi\n2026-03-02,10,6.2\n"))
                .hasMessageContaining("keep one");
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", "date,distance_km\n2026-03-02,10 mi\n"))
                .hasMessageContaining("does not belong in the column");
    }

    @Test
    void restIsWrittenDownAndABlankIsUnknown() throws MendableException {
        RunLog log = LoadFixtures.read("d.csv", """
                date,distance_km,kind
                2026-03-02,8,run
                2026-03-03,,rest
                2026-03-04,0,
                2026-03-05,,
                """);
        assertThat(log.restDays()).containsExactlyInAnyOrder(LocalDate.of(2026, 3, 3), LocalDate.of(2026, 3, 4));
        assertThat(log.notes())
                .containsExactly(
                        "d.csv:5: 2026-03-05 has neither distance nor duration; what was done that day counts as unknown.");
        LoadHistory history = LoadHistory.of(List.of(log), Unlisted.REST, LoadFixtures.SETTINGS);
        assertThat(history.on(LocalDate.of(2026, 3, 5), LoadHistory.Amount.METRES))
                .isEmpty();
        assertThat(history.on(LocalDate.of(2026, 3, 4), LoadHistory.Amount.METRES))
                .hasValue(0);
    }

    @Test
    void aWalkCountsAsKnownAndNotAsRun() throws MendableException {
        RunLog log = LoadFixtures.read("d.csv", "date,distance_km,kind\n2026-03-02,8,walk\n");
        LoadHistory history = LoadHistory.of(List.of(log), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        assertThat(history.on(LocalDate.of(2026, 3, 2), LoadHistory.Amount.METRES))
                .hasValue(0);
    }

    @Test
    void startsWithAnOffsetFallOnTheRunnersDay() throws MendableException {
        String diary = "start,distance_km\n2026-03-02T23:50:00Z,8\n2026-03-05T23:50,8\n";
        RunLog log = LoadFixtures.read("d.csv", diary, ZoneId.of("Europe/Paris"));
        assertThat(log.sessions())
                .extracting(Session::day)
                .containsExactly(LocalDate.of(2026, 3, 3), LocalDate.of(2026, 3, 5));
        assertThatThrownBy(() -> LoadFixtures.read(
                        "d.csv",
                        "date,start,distance_km\n2026-03-02,2026-03-02T23:50:00Z,8\n",
                        ZoneId.of("Europe/Paris")))
                .hasMessageContaining("correct one of them");
    }

    @Test
    void misspeltColumnsAreNamedAndAMissingDateColumnIsAnError() throws MendableException {
        assertThat(LoadFixtures.read("d.csv", "date,distance_km,shoe\n2026-03-02,8,blue\n")
                        .notes())
                .containsExactly("d.csv: columns not read: 'shoe'.");
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", "day,km\n2026-03-02,8\n"))
                .hasMessageContaining("no column 'date'");
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", "date;km\n2026-03-02;8,5\n"))
                .hasMessageContaining("semicolons");
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", "")).hasMessageContaining("empty");
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", "date,distance_km\n"))
                .hasMessageContaining("no rows");
    }

    private static final String WATCH = """
            <gpx version="1.1"><trk><trkseg>
            <trkpt lat="47.0" lon="8.0"><time>2026-03-02T06:00:00Z</time></trkpt>
            <trkpt lat="47.045" lon="8.0"><time>2026-03-02T06:30:00Z</time></trkpt>
            </trkseg></trk></gpx>""";

    @Test
    void twoFilesOfOneRunCountOnce() throws MendableException {
        RunLog watch = LoadFixtures.read("watch.gpx", WATCH);
        RunLog phone = LoadFixtures.read("phone.gpx", WATCH.replace("06:00:00Z", "06:01:00Z"));
        LoadHistory history = LoadHistory.of(List.of(watch, phone), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        assertThat(history.sessions()).hasSize(1);
        assertThat(history.notes()).anyMatch(note -> note.contains("are the same session of 2026-03-02"));
    }

    @Test
    void aDiaryLineLendsItsEffortToTheFileOfTheSameRun() throws MendableException {
        RunLog watch = LoadFixtures.read("watch.gpx", WATCH);
        RunLog diary = LoadFixtures.read("d.csv", "date,distance_km,rpe\n2026-03-02,5.0,6\n");
        LoadHistory history = LoadHistory.of(List.of(diary, watch), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        assertThat(history.sessions()).hasSize(1);
        assertThat(history.sessions().get(0).effortLoad()).hasValue(180);
        assertThat(history.sessions().get(0).device()).isTrue();
    }

    @Test
    void twoEqualRowsOfOneDiaryAreTwoRuns() throws MendableException {
        RunLog diary = LoadFixtures.read("d.csv", "date,distance_km\n2026-03-02,5.0\n2026-03-02,5.0\n");
        LoadHistory history = LoadHistory.of(List.of(diary), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        assertThat(history.on(LocalDate.of(2026, 3, 2), LoadHistory.Amount.METRES))
                .hasValue(10_000);
    }

    @Test
    void twoPartsWithAShortStopAreOneSession() throws MendableException {
        RunLog one = LoadFixtures.read("1.gpx", WATCH);
        RunLog two = LoadFixtures.read(
                "2.gpx", WATCH.replace("06:00:00Z", "06:40:00Z").replace("06:30:00Z", "07:10:00Z"));
        LoadHistory history = LoadHistory.of(List.of(one, two), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        assertThat(history.sessions()).hasSize(1);
        assertThat(history.sessions().get(0).metres()).hasValue(2 * 5004);
        RunLog later = LoadFixtures.read(
                "3.gpx", WATCH.replace("06:00:00Z", "17:00:00Z").replace("06:30:00Z", "17:30:00Z"));
        assertThat(LoadHistory.of(List.of(one, later), Unlisted.UNKNOWN, LoadFixtures.SETTINGS)
                        .sessions())
                .hasSize(2);
    }

    @Test
    void tenYearsOfDiaryAreReadAndReckonedInWellUnderASecond() throws MendableException {
        StringBuilder diary = new StringBuilder("date,distance_km,duration,rpe\n");
        LocalDate first = LocalDate.of(2016, 1, 1);
        for (int i = 0; i < 3653; i++) {
            diary.append(first.plusDays(i))
                    .append(",")
                    .append(4 + i % 9)
                    .append(".5,0:4")
                    .append(i % 10)
                    .append(":00,")
                    .append(i % 10)
                    .append("\n");
        }
        compute(diary.toString());
        long start = System.nanoTime();
        LoadReport report = compute(diary.toString());
        assertThat((System.nanoTime() - start) / 1e6).as("milliseconds").isLessThan(1000);
        assertThat(report.quantity("ratio-uncoupled-effort").value()).isPresent();
    }

    private static LoadReport compute(String diary) throws MendableException {
        LoadHistory history =
                LoadHistory.of(List.of(LoadFixtures.read("ten.csv", diary)), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        return LoadReport.of(history, history.last(), Optional.empty(), LoadFixtures.SETTINGS);
    }

    @Test
    void aDiaryInAnotherEncodingAndAColumnNamedTwiceAreToldInWords() {
        byte[] latin = "date,distance_km,note\n2026-03-02,5,caf\u00e9\n"
                .getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
        assertThatThrownBy(() -> new RunFiles(java.time.ZoneOffset.UTC, LoadFixtures.SETTINGS)
                        .read("d.csv", new java.io.ByteArrayInputStream(latin)))
                .hasMessageContaining("nor a diary in UTF-8");
        assertThatThrownBy(() -> LoadFixtures.read("d.csv", "date,date,distance_km\n2026-03-02,2026-03-02,5\n"))
                .hasMessageContaining("the column 'date' twice");
    }

    @Test
    void aTrackInWideCharactersIsATrack() throws MendableException {
        byte[] wide = ("<?xml version=\"1.0\" encoding=\"UTF-16\"?>" + WATCH)
                .getBytes(java.nio.charset.StandardCharsets.UTF_16);
        assertThat(new RunFiles(java.time.ZoneOffset.UTC, LoadFixtures.SETTINGS)
                        .read("w.gpx", new java.io.ByteArrayInputStream(wide))
                        .sessions())
                .hasSize(1);
    }
}
