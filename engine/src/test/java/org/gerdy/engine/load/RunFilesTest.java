package org.gerdy.engine.load;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import io.jenetics.jpx.GPX;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Random;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.junit.jupiter.api.Test;

/** Files built to GPX 1.1 (http://www.topografix.com/GPX/1/1) and Training Center XML v2, by hand or by a library. */
class RunFilesTest {
    private static final String GPX_HEAD =
            "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"t\" xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>";
    private static final String GPX_TAIL = "</trkseg></trk></gpx>";

    private static String point(double lat, double lon, String time) {
        return "<trkpt lat=\"" + lat + "\" lon=\"" + lon + "\">" + (time.isEmpty() ? "" : "<time>" + time + "</time>")
                + "</trkpt>";
    }

    private static Session only(String name, String text) throws MendableException {
        return LoadFixtures.read(name, text).sessions().get(0);
    }

    @Test
    void legsOfATrackAreSummed() throws MendableException {
        // Hand: legs 111.1951, 113.7502, 111.1951, 113.7480 m on the mean radius; together 449.8884 m
        String track = GPX_HEAD
                + point(47.0000, 8.0000, "2026-03-02T06:00:00Z")
                + point(47.0010, 8.0000, "2026-03-02T06:00:40Z")
                + point(47.0010, 8.0015, "2026-03-02T06:01:20Z")
                + point(47.0020, 8.0015, "2026-03-02T06:02:00Z")
                + point(47.0020, 8.0030, "2026-03-02T06:02:40Z")
                + GPX_TAIL;
        Session run = only("a.gpx", track);
        assertThat(run.metres()).hasValue(450);
        assertThat(run.seconds()).hasValue(160);
        assertThat(run.day()).isEqualTo(LocalDate.of(2026, 3, 2));
        assertThat(run.device()).isTrue();
    }

    @Test
    void aTrackWrittenByALibraryReadsTheSameLength() throws MendableException, IOException {
        Random random = new Random(7);
        double[] place = {51.5, -0.12};
        Instant start = Instant.parse("2026-03-02T06:00:00Z");
        GPX gpx = GPX.builder()
                .addTrack(track -> track.addSegment(segment -> {
                    for (int i = 0; i < 1800; i++) {
                        place[0] += 1.5e-5 + 1e-5 * random.nextDouble();
                        place[1] += 1e-5 * random.nextDouble();
                        int second = i;
                        segment.addPoint(p -> p.lat(place[0]).lon(place[1]).time(start.plusSeconds(second)));
                    }
                }))
                .build();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        GPX.Writer.DEFAULT.write(gpx, out);
        Session run = new RunFiles(ZoneOffset.UTC, LoadFixtures.SETTINGS)
                .read("b.gpx", new ByteArrayInputStream(out.toByteArray()))
                .sessions()
                .get(0);
        double reference = gpx.getTracks()
                .get(0)
                .getSegments()
                .get(0)
                .points()
                .collect(io.jenetics.jpx.geom.Geoid.WGS84.toPathLength())
                .doubleValue();
        // The library measures on the ellipsoid; a sphere differs from it by up to 0.5 %
        assertThat((double) run.metres().getAsLong()).isCloseTo(reference, within(reference * 0.006));
        assertThat(run.points()).isEqualTo(1800);
        assertThat(run.movingSeconds()).hasValue(1799);
    }

    @Test
    void noDistanceIsAddedAcrossAGapInTheRecording() throws MendableException {
        String track = GPX_HEAD
                + point(47, 8, "2026-03-02T06:00:00Z") + point(47.001, 8, "2026-03-02T06:00:40Z")
                + "</trkseg><trkseg>"
                + point(47.011, 8, "2026-03-02T06:10:40Z") + point(47.012, 8, "2026-03-02T06:11:20Z") + GPX_TAIL;
        RunLog log = LoadFixtures.read("gap.gpx", track);
        assertThat(log.sessions().get(0).metres()).hasValue(222);
        assertThat(log.sessions().get(0).seconds()).hasValue(80);
        assertThat(log.notes())
                .containsExactly("gap.gpx, track 1: 1 pause; 10 min of long stops taken off the duration.");
    }

    @Test
    void standingStillIsAPauseAndNotMoving() throws MendableException {
        StringBuilder track = new StringBuilder(GPX_HEAD);
        for (int i = 0; i <= 60; i++) {
            double north = 47 + 2.7e-5 * Math.min(i, 20) + 2.7e-5 * Math.max(0, i - 40);
            track.append(point(
                    north,
                    8,
                    Instant.parse("2026-03-02T06:00:00Z").plusSeconds(i).toString()));
        }
        Session run = only("stop.gpx", track + GPX_TAIL);
        assertThat(run.seconds()).hasValue(60);
        assertThat(run.movingSeconds()).hasValue(40);
    }

    @Test
    void aTrackWithoutTimesNamesItsDistanceAndAsksForADate() {
        String track = GPX_HEAD + point(47, 8, "") + point(47.01, 8, "") + GPX_TAIL;
        assertThatThrownBy(() -> LoadFixtures.read("c.gpx", track))
                .isInstanceOf(MendableException.class)
                .hasMessageContaining("Track 1 (1.11 km) has no times");
    }

    @Test
    void aTimeWithoutItsOffsetIsRefused() {
        String track = GPX_HEAD + point(47, 8, "2026-03-02T23:50:00") + GPX_TAIL;
        assertThatThrownBy(() -> LoadFixtures.read("c.gpx", track)).hasMessageContaining("not a time with its offset");
    }

    @Test
    void onePointGivesADayAndNoDistance() throws MendableException {
        RunLog log = LoadFixtures.read("one.gpx", GPX_HEAD + point(47, 8, "2026-03-02T06:00:00Z") + GPX_TAIL);
        assertThat(log.sessions().get(0).metres()).isEmpty();
        assertThat(log.sessions().get(0).seconds()).isEmpty();
        assertThat(log.notes().get(0)).contains("holds one point");
    }

    @Test
    void theDateLineIsNoJump() throws MendableException {
        // Hand: 0.001 degrees of longitude on the equator are 111.195 m
        String track = GPX_HEAD
                + point(0, 179.9995, "2026-03-02T06:00:00Z")
                + point(0, -179.9995, "2026-03-02T06:00:40Z")
                + GPX_TAIL;
        assertThat(only("line.gpx", track).metres()).hasValue(111);
    }

    @Test
    void aPointNobodyCouldReachIsDroppedAndSaid() throws MendableException {
        String track = GPX_HEAD
                + point(47, 8, "2026-03-02T06:00:00Z")
                + point(47.5, 8, "2026-03-02T06:00:10Z")
                + point(47.0005, 8, "2026-03-02T06:00:20Z")
                + GPX_TAIL;
        RunLog log = LoadFixtures.read("jump.gpx", track);
        assertThat(log.sessions().get(0).metres()).hasValue(56);
        assertThat(log.notes()).anyMatch(note -> note.contains("1 point was dropped"));
    }

    @Test
    void theDayIsTheRunnersOwn() throws MendableException {
        String track =
                GPX_HEAD + point(47, 8, "2026-03-02T23:50:00Z") + point(47.001, 8, "2026-03-02T23:51:00Z") + GPX_TAIL;
        assertThat(LoadFixtures.read("z.gpx", track, ZoneId.of("Europe/Paris"))
                        .sessions()
                        .get(0)
                        .day())
                .isEqualTo(LocalDate.of(2026, 3, 3));
        assertThat(LoadFixtures.read("z.gpx", track, ZoneId.of("America/New_York"))
                        .sessions()
                        .get(0)
                        .day())
                .isEqualTo(LocalDate.of(2026, 3, 2));
    }

    @Test
    void routesAndWayPointsAreNotRuns() {
        String route = "<gpx version=\"1.1\"><wpt lat=\"1\" lon=\"1\"/><rte><rtept lat=\"1\" lon=\"1\"/></rte></gpx>";
        assertThatThrownBy(() -> LoadFixtures.read("r.gpx", route)).hasMessageContaining("holds no track");
    }

    @Test
    void impossiblePositionsNameTheirLine() {
        String track = GPX_HEAD + "\n" + point(97, 8, "2026-03-02T06:00:00Z") + GPX_TAIL;
        assertThatThrownBy(() -> LoadFixtures.read("p.gpx", track))
                .hasMessageContaining("p.gpx:2")
                .hasMessageContaining("lat");
    }

    @Test
    void entitiesAndCutOffFilesAreRefusedWithoutAStackTrace() {
        String bomb = "<!DOCTYPE gpx [<!ENTITY a \"x\"><!ENTITY b SYSTEM \"file:///etc/passwd\">]><gpx version=\"1.1\">"
                + "<trk><name>&b;</name></trk></gpx>";
        assertThatThrownBy(() -> LoadFixtures.read("x.gpx", bomb)).isInstanceOf(MendableException.class);
        assertThatThrownBy(() -> LoadFixtures.read("x.gpx", GPX_HEAD + point(47, 8, "2026-03-02T06:00:00Z")))
                .isInstanceOf(MendableException.class)
                .hasMessageContaining("cut off");
        assertThatThrownBy(() -> LoadFixtures.read("x.xml", "<html></html>")).hasMessageContaining("not a GPX file");
    }

    @Test
    void aFitFileIsNamedAndTheWayOutTold() {
        byte[] fit = {14, 16, 0, 0, 0, 0, 0, 0, '.', 'F', 'I', 'T', 0, 0};
        assertThatThrownBy(() -> new RunFiles(ZoneOffset.UTC, LoadFixtures.SETTINGS)
                        .read("run.fit", new ByteArrayInputStream(fit)))
                .hasMessageContaining("Export the run as TCX or GPX");
        byte[] gzip = {0x1f, (byte) 0x8b, 8, 0};
        assertThatThrownBy(() -> new RunFiles(ZoneOffset.UTC, LoadFixtures.SETTINGS)
                        .read("run.gpx.gz", new ByteArrayInputStream(gzip)))
                .hasMessageContaining("unpack");
    }

    private static String tcx(String sport, String laps) {
        return "<?xml version=\"1.0\"?><TrainingCenterDatabase xmlns=\"http://www.garmin.com/xmlschemas/TrainingCenterDatabase/v2\">"
                + "<Activities><Activity Sport=\"" + sport + "\"><Id>2026-03-02T06:00:00Z</Id>" + laps
                + "</Activity></Activities></TrainingCenterDatabase>";
    }

    private static String lap(String metres, String points) {
        return "<Lap StartTime=\"2026-03-02T06:00:00Z\"><TotalTimeSeconds>300</TotalTimeSeconds>" + "<DistanceMeters>"
                + metres + "</DistanceMeters><Track>" + points + "</Track></Lap>";
    }

    private static String tcxPoint(int second, double lat, double metres) {
        return "<Trackpoint><Time>" + Instant.parse("2026-03-02T06:00:00Z").plusSeconds(second) + "</Time>"
                + "<Position><LatitudeDegrees>" + lat
                + "</LatitudeDegrees><LongitudeDegrees>8</LongitudeDegrees></Position>"
                + "<DistanceMeters>" + metres + "</DistanceMeters>"
                + "<Extensions><TPX><RunCadence>85</RunCadence></TPX></Extensions></Trackpoint>";
    }

    @Test
    void lapDistancesAddUpAndPointDistancesDoNot() throws MendableException {
        String file = tcx(
                "Running",
                lap("1000.4", tcxPoint(0, 47, 0) + tcxPoint(300, 47.009, 1000.4))
                        + lap("1609.34", tcxPoint(301, 47.009, 1000.4) + tcxPoint(800, 47.0235, 2609.7)));
        Session run = only("a.tcx", file);
        assertThat(run.metres()).hasValue(2610);
        assertThat(run.seconds()).hasValue(800);
    }

    @Test
    void aRateOfOneSideIsDoubled() throws MendableException {
        Session run = only("a.tcx", tcx("Running", lap("1000", tcxPoint(0, 47, 0) + tcxPoint(300, 47.009, 1000))));
        assertThat(run.stepRate()).hasValue(170);
    }

    @Test
    void aDeviceThatDisagreesWithItsPositionsIsSaid() throws MendableException {
        RunLog log = LoadFixtures.read(
                "d.tcx", tcx("Running", lap("1500", tcxPoint(0, 47, 0) + tcxPoint(300, 47.009, 1500))));
        assertThat(log.sessions().get(0).metres()).hasValue(1500);
        assertThat(log.notes())
                .containsExactly(
                        "d.tcx, activity 1: the device says 1500 m, its positions say 1001 m; the device's own distance was taken.");
    }

    @Test
    void aTreadmillRunWithoutPositionsKeepsItsDistance() throws MendableException {
        String points = "<Trackpoint><Time>2026-03-02T06:00:00Z</Time><DistanceMeters>0</DistanceMeters></Trackpoint>"
                + "<Trackpoint><Time>2026-03-02T06:30:00Z</Time><DistanceMeters>5000</DistanceMeters></Trackpoint>";
        Session run = only("t.tcx", tcx("Running", lap("5000", points)));
        assertThat(run.metres()).hasValue(5000);
        assertThat(run.seconds()).hasValue(1800);
    }

    @Test
    void aRideIsNoRun() throws MendableException {
        RunLog log = LoadFixtures.read("b.tcx", tcx("Biking", lap("30000", tcxPoint(0, 47, 0))));
        assertThat(log.sessions().get(0).running()).isFalse();
        assertThat(log.sessions().get(0).metresRun()).hasValue(0);
        assertThat(log.notes()).anyMatch(note -> note.contains("not running"));
    }

    @Test
    void aStopBetweenLapsIsAPauseAndTheNextSecondIsNot() throws MendableException {
        String laps = lap("1000", tcxPoint(0, 47, 0) + tcxPoint(300, 47.009, 1000))
                + lap("1000", tcxPoint(301, 47.009, 1000) + tcxPoint(600, 47.018, 2000))
                + lap("1000", tcxPoint(1200, 47.018, 2000) + tcxPoint(1500, 47.027, 3000));
        RunLog log = LoadFixtures.read("l.tcx", tcx("Running", laps));
        assertThat(log.sessions().get(0).seconds()).hasValue(900);
        assertThat(log.notes())
                .containsExactly("l.tcx, activity 1: 1 pause; 10 min of long stops taken off the duration.");
    }

    @Test
    void tenHoursAtOneSecondStreamInFlatMemory() throws MendableException {
        int points = 10 * 3600;
        assertThat(streamed(points).sessions().get(0).points()).isEqualTo(points);
        long start = System.nanoTime();
        streamed(points);
        assertThat((System.nanoTime() - start) / 1e6).as("milliseconds").isLessThan(3000);
        TrackStream tenTimes = new TrackStream(10 * points);
        new RunFiles(ZoneOffset.UTC, LoadFixtures.SETTINGS).read("long.gpx", tenTimes);
        assertThat(tenTimes.growth)
                .as("bytes kept from the first tenth to the end")
                .isLessThan(8L * 1024 * 1024);
    }

    private static RunLog streamed(int points) throws MendableException {
        return new RunFiles(ZoneOffset.UTC, LoadFixtures.SETTINGS).read("long.gpx", new TrackStream(points));
    }

    /** Makes a track while it is read and looks at the heap on the way. */
    private static final class TrackStream extends InputStream {
        private final int points;
        private int made = -1;
        private byte[] chunk = GPX_HEAD.getBytes(java.nio.charset.StandardCharsets.UTF_8);
        private int at;
        private long early;
        private long growth;

        TrackStream(int points) {
            this.points = points;
        }

        @Override
        public int read() {
            if (at == chunk.length && !more()) {
                return -1;
            }
            return chunk[at++] & 0xff;
        }

        @Override
        public int read(byte[] bytes, int from, int length) {
            if (at == chunk.length && !more()) {
                return -1;
            }
            int count = Math.min(length, chunk.length - at);
            System.arraycopy(chunk, at, bytes, from, count);
            at += count;
            return count;
        }

        private boolean more() {
            made++;
            if (made > points) {
                return false;
            }
            String text = made == points
                    ? GPX_TAIL
                    : point(
                            47 + made * 2.5e-5 % 1,
                            8,
                            Instant.parse("2026-03-02T06:00:00Z")
                                    .plusSeconds(made)
                                    .toString());
            if (points > 100_000 && made == points / 10) {
                early = heap();
            }
            if (points > 100_000 && made == points) {
                growth = heap() - early;
            }
            chunk = text.getBytes(java.nio.charset.StandardCharsets.UTF_8);
            at = 0;
            return true;
        }

        private static long heap() {
            System.gc();
            return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
        }
    }
}
