package org.gerdy.engine.load;

import java.io.InputStream;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.jspecify.annotations.Nullable;

/**
 * Reads the tracks of a GPX 1.1 file (http://www.topografix.com/GPX/1/1) as a stream. Each track is a session; a track
 * segment ends where recording stopped and no distance is added across it. Way points and routes are not runs.
 */
final class GpxReader {
    private final String file;
    private final ZoneId zone;
    private final LoadSettings settings;
    private final List<Session> sessions = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();

    private @Nullable Track track;
    private OptionalDouble latitude = OptionalDouble.empty();
    private OptionalDouble longitude = OptionalDouble.empty();
    private OptionalDouble height = OptionalDouble.empty();
    private Optional<Instant> time = Optional.empty();
    private boolean segmentStarts;
    private String kind = "";

    GpxReader(String file, ZoneId zone, LoadSettings settings) {
        this.file = file;
        this.zone = zone;
        this.settings = settings;
    }

    RunLog read(InputStream in) throws MendableException {
        XmlEvents xml = new XmlEvents(file, in);
        if (!xml.next() || !xml.name().equals("gpx")) {
            throw xml.at("This is not a GPX file: it does not begin with 'gpx'.");
        }
        String version = xml.attribute("version").orElse("");
        if (!version.equals("1.1")) {
            notes.add(file + " says GPX version '" + version + "' instead of 1.1; it was read the same way.");
        }
        int tracks = 0;
        while (xml.next()) {
            if (xml.isStart()) {
                if (xml.name().equals("trk")) {
                    tracks++;
                    track = new Track(settings);
                    kind = "";
                }
                start(xml, track);
            } else {
                end(xml, track, tracks);
            }
        }
        if (tracks == 0) {
            throw xml.at("The file holds no track; way points and routes are not runs.");
        }
        return new RunLog(sessions, Set.of(), notes);
    }

    private void start(XmlEvents xml, @Nullable Track current) throws MendableException {
        if (current == null) {
            return;
        }
        switch (xml.name()) {
            case "trkseg" -> segmentStarts = true;
            case "trkpt" -> {
                latitude = xml.degrees("lat", XmlEvents.POLE);
                longitude = xml.degrees("lon", XmlEvents.DATE_LINE);
                if (latitude.isEmpty() || longitude.isEmpty()) {
                    throw xml.at("A track point lacks 'lat' or 'lon'; export the run again.");
                }
                height = OptionalDouble.empty();
                time = Optional.empty();
            }
            case "ele" -> {
                if (latitude.isPresent()) {
                    height = OptionalDouble.of(xml.number("ele", xml.text()));
                }
            }
            case "time" -> {
                if (latitude.isPresent()) {
                    time = Optional.of(Times.instant(xml, xml.text()));
                }
            }
            case "type" -> {
                if (latitude.isEmpty()) {
                    kind = xml.text();
                }
            }
            default -> {
                // Names, links and makers' extensions say nothing about load.
            }
        }
    }

    private void end(XmlEvents xml, @Nullable Track current, int number) throws MendableException {
        if (current == null) {
            return;
        }
        switch (xml.name()) {
            case "trkpt" -> {
                if (segmentStarts) {
                    current.resume(time);
                    segmentStarts = false;
                }
                current.add(time, latitude, longitude, height);
                latitude = OptionalDouble.empty();
            }
            case "trkseg" -> current.gap();
            case "trk" -> {
                finish(xml, current, number);
                track = null;
            }
            default -> {
                // Nothing closes here.
            }
        }
    }

    private void finish(XmlEvents xml, Track done, int number) throws MendableException {
        String name = file + ", track " + number;
        if (done.points() == 0) {
            notes.add(name + " is empty and was left out.");
            return;
        }
        if (done.first().isEmpty()) {
            String distance = done.metres().isPresent()
                    ? Math.round(done.metres().getAsLong() / 10.0) / 100.0 + " km"
                    : "no distance";
            throw xml.at("Track " + number + " (" + distance
                    + ") has no times, so its day is unknown; write it into a diary with its date.");
        }
        notes.addAll(done.notes(name));
        boolean running = Sports.isRunning(kind);
        if (!running) {
            notes.add(name + " is '" + kind + "', not running; its distance does not count as run.");
        }
        sessions.add(new Session(
                done.first().get().atZone(zone).toLocalDate(),
                Optional.of(done.first().get().atZone(zone).toOffsetDateTime()),
                done.metres(),
                done.seconds(),
                done.movingSeconds(),
                OptionalDouble.empty(),
                done.ascent(),
                done.descent(),
                done.stepRate(),
                running,
                "",
                true,
                done.points(),
                name));
    }
}
