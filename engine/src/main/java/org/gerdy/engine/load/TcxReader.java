package org.gerdy.engine.load;

import java.io.InputStream;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.jspecify.annotations.Nullable;

/**
 * Reads the activities of a Training Center XML file (TrainingCenterDatabase v2) as a stream. The device's own lap
 * distances come first, since a stride sensor or treadmill may stand behind them; positions are the cross-check.
 */
final class TcxReader {
    private static final double PERCENT = 100;

    private final String file;
    private final ZoneId zone;
    private final LoadSettings settings;
    private final List<Session> sessions = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();

    private @Nullable Track track;
    private int activities;
    private String sport = "";
    private Optional<Instant> began = Optional.empty();
    private double lapMetres;
    private double lapSeconds;
    private boolean hasLapMetres;
    private double furthest = Double.NaN;
    private boolean inPoint;
    private Optional<Instant> time = Optional.empty();
    private Optional<Instant> before = Optional.empty();
    private OptionalDouble latitude = OptionalDouble.empty();
    private OptionalDouble longitude = OptionalDouble.empty();
    private OptionalDouble height = OptionalDouble.empty();
    private OptionalDouble cadence = OptionalDouble.empty();

    TcxReader(String file, ZoneId zone, LoadSettings settings) {
        this.file = file;
        this.zone = zone;
        this.settings = settings;
    }

    RunLog read(InputStream in) throws MendableException {
        XmlEvents xml = new XmlEvents(file, in);
        if (!xml.next() || !xml.name().equals("TrainingCenterDatabase")) {
            throw xml.at("This is not a TCX file: it does not begin with 'TrainingCenterDatabase'.");
        }
        while (xml.next()) {
            if (xml.isStart()) {
                if (xml.name().equals("Activity")) {
                    begin(xml);
                } else if (track != null) {
                    start(xml);
                }
            } else if (track != null) {
                end(xml, track);
            }
        }
        if (activities == 0) {
            throw xml.at("The file holds no activity; courses and workouts are not runs.");
        }
        return new RunLog(sessions, Set.of(), notes);
    }

    private void begin(XmlEvents xml) {
        activities++;
        track = new Track(settings);
        sport = xml.attribute("Sport").orElse("");
        began = Optional.empty();
        before = Optional.empty();
        lapMetres = 0;
        lapSeconds = 0;
        hasLapMetres = false;
        furthest = Double.NaN;
        inPoint = false;
    }

    private void start(XmlEvents xml) throws MendableException {
        switch (xml.name()) {
            case "Lap" -> {
                Optional<String> start = xml.attribute("StartTime");
                if (began.isEmpty() && start.isPresent()) {
                    began = Optional.of(Times.instant(xml, start.get()));
                }
            }
            case "TotalTimeSeconds" -> lapSeconds += xml.number("TotalTimeSeconds", xml.text());
            case "DistanceMeters" -> {
                double metres = xml.number("DistanceMeters", xml.text());
                if (inPoint) {
                    furthest = Double.isNaN(furthest) ? metres : Math.max(furthest, metres);
                } else {
                    lapMetres += metres;
                    hasLapMetres = true;
                }
            }
            case "Trackpoint" -> {
                inPoint = true;
                time = Optional.empty();
                latitude = OptionalDouble.empty();
                longitude = OptionalDouble.empty();
                height = OptionalDouble.empty();
                cadence = OptionalDouble.empty();
            }
            case "Time" -> time = Optional.of(Times.instant(xml, xml.text()));
            case "LatitudeDegrees" -> latitude = OptionalDouble.of(xml.degrees("latitude", xml.text(), XmlEvents.POLE));
            case "LongitudeDegrees" ->
                longitude = OptionalDouble.of(xml.degrees("longitude", xml.text(), XmlEvents.DATE_LINE));
            case "AltitudeMeters" -> height = OptionalDouble.of(xml.number("AltitudeMeters", xml.text()));
            case "RunCadence", "Cadence" -> {
                if (inPoint) {
                    cadence = OptionalDouble.of(xml.number("cadence", xml.text()));
                }
            }
            default -> {
                // Heart rate, energy and makers' extensions say nothing about load here.
            }
        }
    }

    private void end(XmlEvents xml, Track current) throws MendableException {
        if (xml.name().equals("Trackpoint")) {
            inPoint = false;
            boolean gap = time.isPresent()
                    && before.isPresent()
                    && Duration.between(before.get(), time.get()).toSeconds() > settings.pauseSeconds();
            if (gap && afterTrack) {
                current.gap();
                current.resume(time);
            }
            afterTrack = false;
            current.add(time, latitude, longitude, height);
            cadence.ifPresent(rate -> current.rate(rate < settings.strideRateBelow() ? 2 * rate : rate));
            before = time.isPresent() ? time : before;
        } else if (xml.name().equals("Track")) {
            afterTrack = true;
        } else if (xml.name().equals("Activity")) {
            finish(xml, current);
            track = null;
        }
    }

    /** A new track within an activity is a pause only when time has passed; each lap opens one. */
    private boolean afterTrack;

    private void finish(XmlEvents xml, Track done) throws MendableException {
        String name = file + ", activity " + activities;
        Optional<Instant> start = done.first().isPresent() ? done.first() : began;
        if (start.isEmpty()) {
            throw xml.at("Activity " + activities + " has no times, so its day is unknown; write it into a diary.");
        }
        OptionalLong device = hasLapMetres
                ? OptionalLong.of(Math.round(lapMetres))
                : Double.isNaN(furthest) ? OptionalLong.empty() : OptionalLong.of(Math.round(furthest));
        OptionalLong metres = device.isPresent() && device.getAsLong() > 0 ? device : done.metres();
        boolean running = Sports.isRunning(sport);
        notes.addAll(done.notes(name));
        if (!running) {
            notes.add(name + " is '" + sport + "', not running; its distance does not count as run.");
        }
        if (device.isPresent() && device.getAsLong() > 0 && done.metres().isPresent()) {
            double gap = PERCENT * (done.metres().getAsLong() - device.getAsLong()) / (double) device.getAsLong();
            if (Math.abs(gap) > settings.deviceGapPercent()) {
                notes.add(name + ": the device says " + device.getAsLong() + " m, its positions say "
                        + done.metres().getAsLong() + " m; the device's own distance was taken.");
            }
        }
        OptionalLong seconds = done.seconds().isPresent()
                ? done.seconds()
                : lapSeconds > 0 ? OptionalLong.of(Math.round(lapSeconds)) : OptionalLong.empty();
        sessions.add(new Session(
                start.get().atZone(zone).toLocalDate(),
                Optional.of(start.get().atZone(zone).toOffsetDateTime()),
                metres,
                seconds,
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
