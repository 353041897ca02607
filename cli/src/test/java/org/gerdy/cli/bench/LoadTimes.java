package org.gerdy.cli.bench;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.gerdy.cli.bench.Watched.Took;

/** {@code gerdy load} over run files made for it, in a small heap: time, and memory that does not grow with the file. */
final class LoadTimes {
    private static final int ROUNDS = 5;
    private static final int DAYS = 3652;
    private static final int HOUR = 3600;
    private static final LocalDate FIRST = LocalDate.of(2016, 1, 1);
    private static final List<String> OPTIONS = List.of("-Xmx48m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1");

    /** Makes the files, reads each in turn and prints the table. */
    void run() throws IOException, InterruptedException {
        Path directory = Files.createTempDirectory("gerdy-load");
        try {
            Map<String, Path> files = new LinkedHashMap<>();
            files.put("diary, one week", diary(directory.resolve("week.csv"), 7));
            files.put("diary, ten years, a run a day", diary(directory.resolve("ten-years.csv"), DAYS));
            files.put("track of 1 hour at 1 Hz", track(directory.resolve("1-hour.gpx"), 1));
            files.put("track of 10 hours at 1 Hz", track(directory.resolve("10-hours.gpx"), 10));
            files.put("track of 100 hours at 1 Hz", track(directory.resolve("100-hours.gpx"), 100));
            Map<String, List<Took>> took = new LinkedHashMap<>();
            for (int round = 0; round < ROUNDS; round++) {
                for (Map.Entry<String, Path> file : files.entrySet()) {
                    took.computeIfAbsent(file.getKey(), ignored -> new ArrayList<>())
                            .add(Watched.run(OPTIONS, "load", file.getValue().toString()));
                }
            }
            print(files, took);
        } finally {
            try (var left = Files.list(directory)) {
                for (Path file : left.toList()) {
                    Files.delete(file);
                }
            }
            Files.delete(directory);
        }
    }

    private static void print(Map<String, Path> files, Map<String, List<Took>> took) throws IOException {
        System.out.println();
        System.out.println("| `gerdy load`, heap of 48 MB | file, MB | processor time, median, s | clock, median, s |"
                + " peak memory of the process, MB |");
        System.out.println("|---|---|---|---|---|");
        for (Map.Entry<String, List<Took>> one : took.entrySet()) {
            System.out.printf(
                    Locale.ROOT,
                    "| %s | %.1f | %.2f | %.2f | %.0f |%n",
                    one.getKey(),
                    Files.size(files.get(one.getKey())) / 1e6,
                    Ratios.median(one.getValue().stream().map(Took::processor).toList()),
                    Ratios.median(one.getValue().stream().map(Took::clock).toList()),
                    one.getValue().stream().mapToDouble(Took::peak).max().orElse(0));
        }
    }

    private static Path diary(Path file, int days) throws IOException {
        try (Writer out = Files.newBufferedWriter(file)) {
            out.write("date,distance_km,duration,rpe,kind,surface,note\n");
            for (int day = 0; day < days; day++) {
                out.write(String.format(
                        Locale.ROOT,
                        "%s,%d.%d,0:%02d:00,%d,run,road,%n",
                        FIRST.plusDays(day),
                        5 + day % 7,
                        day % 10,
                        30 + day % 25,
                        3 + day % 4));
            }
        }
        return file;
    }

    /** A point a second with height, straight on at three metres a second over gentle waves. */
    private static Path track(Path file, int hours) throws IOException {
        Instant start = Instant.parse("2026-03-02T06:00:00Z");
        try (Writer out = Files.newBufferedWriter(file)) {
            out.write("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                    + "<gpx version=\"1.1\" creator=\"benchmark\" xmlns=\"http://www.topografix.com/GPX/1/1\">"
                    + "<trk><type>running</type><trkseg>\n");
            for (int second = 0; second < hours * HOUR; second++) {
                out.write(String.format(
                        Locale.ROOT,
                        "<trkpt lat=\"%.7f\" lon=\"8.0000000\"><ele>%.1f</ele><time>%s</time></trkpt>%n",
                        45 + second * 2.7e-5,
                        100 + 10 * Math.sin(second / 300.0),
                        start.plusSeconds(second)));
            }
            out.write("</trkseg></trk></gpx>\n");
        }
        return file;
    }
}
