package org.gerdy.cli;

import java.io.PrintWriter;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.LoadJson;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.load.LoadHistory;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.load.LoadSettings;
import org.gerdy.engine.load.RunFiles;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Prints the training load in diaries and device files. */
@Command(
        name = "load",
        mixinStandardHelpOptions = true,
        description =
                "Training load from run files of one runner: weeks, runs much longer than usual, what is missing.",
        footer = {
            "",
            "A diary is a CSV file with a header row: date, distance (with its unit in each cell) or distance_km,",
            "duration (h:mm:ss), rpe (0 to 10), kind, surface. GPX 1.1 and TCX files are read as a watch writes them.",
            "Several files make one record; a run recorded twice counts once.",
            "",
            "Examples:",
            "  gerdy load cases/demo/marlow-runs.csv --unlisted rest --pain-began 2026-08-09",
            "  gerdy load diary.csv watch.gpx --zone Europe/London --weeks 26"
        })
final class LoadCommand extends KnowledgeCommand {
    enum Format {
        text,
        json
    }

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "Diary, GPX or TCX files; - is standard input.")
    private List<String> files = new ArrayList<>();

    @Option(
            names = "--zone",
            paramLabel = "ZONE",
            description = "The runner's time zone, such as Europe/London; UTC if left out.")
    private @Nullable String zone;

    @Option(
            names = "--unlisted",
            paramLabel = "WORD",
            description = "What a day with nothing written down is: unknown (the default) or rest.")
    private LoadHistory.Unlisted unlisted = LoadHistory.Unlisted.UNKNOWN;

    @Option(
            names = "--pain-began",
            paramLabel = "DATE",
            description = "Day of the first painful session; the windows end the day before.")
    private @Nullable LocalDate painBegan;

    @Option(
            names = "--as-of",
            paramLabel = "DATE",
            description = "Last day of the windows; the last day of the record if left out.")
    private @Nullable LocalDate asOf;

    @Option(names = "--weeks", paramLabel = "N", description = "How many weeks to chart; 14 if left out.")
    private int weeks = 14;

    @Option(names = "--format", description = "text (the default) or json.")
    private Format format = Format.text;

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = out();
        PrintWriter err = err();
        Optional<String> usage = usage();
        if (usage.isPresent()) {
            err.println(usage.get());
            return 2;
        }
        Gerdy gerdy = gerdy();
        LoadSettings settings = gerdy.knowledge().loadSettings();
        List<Problem> problems = new ArrayList<>();
        List<RunLog> logs = logs(new RunFiles(zone().orElse(ZoneOffset.UTC), settings), problems);
        if (!problems.isEmpty()) {
            problems.forEach(err::println);
            return 1;
        }
        boolean clocked = logs.stream().flatMap(log -> log.sessions().stream()).anyMatch(session -> session.start()
                .isPresent());
        if (zone == null && clocked) {
            logs.add(new RunLog(
                    List.of(), Set.of(), List.of("No time zone is given, so each day is taken in UTC; use --zone.")));
        }
        LoadHistory history;
        try {
            history = LoadHistory.of(logs, unlisted, settings);
        } catch (IllegalArgumentException e) {
            throw new MendableException(String.join(", ", files), String.valueOf(e.getMessage()));
        }
        LocalDate end = asOf;
        LoadReport report =
                LoadReport.of(history, end == null ? history.last() : end, Optional.ofNullable(painBegan), settings);
        out.print(format == Format.json ? LoadJson.pretty(report) : new LoadTable(weeks).text(report));
        return 0;
    }

    private Optional<String> usage() {
        if (weeks < 1) {
            return Optional.of("--weeks is " + weeks + "; it takes a whole number from 1.");
        }
        if (painBegan != null && asOf != null) {
            return Optional.of("--pain-began already ends the windows; leave --as-of out.");
        }
        return zone != null && zone().isEmpty()
                ? Optional.of("'" + zone + "' is not a time zone; write one such as Europe/London.")
                : Optional.empty();
    }

    private Optional<ZoneId> zone() {
        String name = zone;
        try {
            return name == null ? Optional.empty() : Optional.of(ZoneId.of(name));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    private List<RunLog> logs(RunFiles reader, List<Problem> problems) {
        List<RunLog> logs = new ArrayList<>();
        for (String file : files) {
            try {
                logs.add(
                        file.equals(Cases.STANDARD_INPUT)
                                ? reader.read("standard input", Cases.standardInput())
                                : reader.read(Cases.path(file)));
            } catch (MendableException e) {
                problems.addAll(e.problems());
            }
        }
        return logs;
    }
}
