package org.gerdy.engine.load;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.gerdy.engine.vocabulary.Catalogue;

/**
 * Reads a diary: comma separated, one session or rest day a row, a header row. Columns: {@code date} or {@code start};
 * {@code distance} with its unit in the cell, or {@code distance_km}, {@code distance_mi}, {@code distance_m};
 * {@code duration} as h:mm:ss or a number with its unit, or {@code duration_min}; {@code rpe}; {@code kind}; {@code surface};
 * {@code ascent_m}; {@code descent_m}; {@code note}.
 */
final class DiaryReader {
    private static final List<String> COLUMNS = List.of(
            "date",
            "start",
            "distance",
            "distance_km",
            "distance_mi",
            "distance_m",
            "duration",
            "duration_min",
            "rpe",
            "kind",
            "surface",
            "ascent_m",
            "descent_m",
            "note");
    private final String file;
    private final ZoneId zone;
    private final List<Problem> problems = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private final List<Session> sessions = new ArrayList<>();
    private final Set<LocalDate> rest = new LinkedHashSet<>();

    DiaryReader(String file, ZoneId zone) {
        this.file = file;
        this.zone = zone;
    }

    RunLog read(InputStream in) throws MendableException {
        try (CsvReader<CsvRecord> rows = CsvReader.builder()
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .ofCsvRecord(new InputStreamReader(
                        in,
                        StandardCharsets.UTF_8
                                .newDecoder()
                                .onMalformedInput(CodingErrorAction.REPORT)
                                .onUnmappableCharacter(CodingErrorAction.REPORT)))) {
            List<String> header = List.of();
            Map<String, Integer> columns = Map.of();
            for (CsvRecord row : rows) {
                int line = (int) row.getStartingLineNumber();
                if (columns.isEmpty()) {
                    header = row.getFields();
                    columns = columns(header);
                } else if (row.getFieldCount() != header.size()) {
                    problem(
                            line,
                            "The row has " + row.getFieldCount() + " cells, the header has " + header.size()
                                    + "; put text with a comma in quotes.");
                } else {
                    row(new DiaryRow(file, line, row, columns, problems));
                }
            }
            if (columns.isEmpty()) {
                columns(header);
            }
        } catch (CsvParseException | IOException | UncheckedIOException e) {
            boolean encoding =
                    e instanceof CharacterCodingException || e.getCause() instanceof CharacterCodingException;
            throw new MendableException(
                    file,
                    encoding
                            ? "This is neither a GPX or TCX file nor a diary in UTF-8; save the diary as comma separated UTF-8 text."
                            : "The diary could not be read: " + e.getMessage() + " Correct the header or the quotes.");
        }
        if (sessions.isEmpty() && rest.isEmpty() && problems.isEmpty()) {
            throw new MendableException(file, "The diary has a header and no rows.");
        }
        if (!problems.isEmpty()) {
            throw new MendableException(problems);
        }
        return new RunLog(sessions, rest, notes);
    }

    /** Known column to its place in a row, from 0. */
    private Map<String, Integer> columns(List<String> header) throws MendableException {
        Map<String, Integer> known = new LinkedHashMap<>();
        List<String> ignored = new ArrayList<>();
        for (int place = 0; place < header.size(); place++) {
            String written = header.get(place).strip().replace("\uFEFF", "");
            String name = written.toLowerCase(Locale.ROOT);
            if (!COLUMNS.contains(name)) {
                ignored.add("'" + written + "'"
                        + Catalogue.nearest(name, COLUMNS)
                                .map(n -> " (did you mean '" + n + "'?)")
                                .orElse(""));
            } else if (known.put(name, place) != null) {
                throw new MendableException(file, "This diary has the column '" + name + "' twice; name each once.");
            }
        }
        if (!known.containsKey("date") && !known.containsKey("start")) {
            String hint = header.size() == 1 && header.get(0).contains(";")
                    ? "it is separated by semicolons; save it comma separated with a decimal point."
                    : "the first row must name the columns: date, distance_km or distance_mi, duration, rpe.";
            throw new MendableException(file, "This diary has no column 'date'; " + hint);
        }
        if (!ignored.isEmpty()) {
            notes.add(file + ": columns not read: " + String.join(", ", ignored) + ".");
        }
        return known;
    }

    private void row(DiaryRow row) {
        Optional<OffsetDateTime> start = row.text("start").flatMap(text -> start(row, text));
        Optional<LocalDate> date = row.text("date").flatMap(text -> date(row, text));
        if (start.isPresent() && date.isPresent() && !start.get().toLocalDate().equals(date.get())) {
            row.problem("'date' says " + date.get() + ", 'start' falls on "
                    + start.get().toLocalDate() + " in the zone " + zone + "; correct one of them.");
            return;
        }
        Optional<LocalDate> day = start.map(OffsetDateTime::toLocalDate).or(() -> date);
        OptionalLong metres = row.metres();
        OptionalLong seconds = row.seconds();
        OptionalDouble effort = row.between("rpe", 0, 10);
        OptionalDouble ascent = row.between("ascent_m", 0, 30_000);
        OptionalDouble descent = row.between("descent_m", 0, 30_000);
        if (day.isEmpty()) {
            if (row.text("date").isEmpty() && row.text("start").isEmpty()) {
                row.problem("The row has no date; add one such as 2026-03-02.");
            }
            return;
        }
        String kind = row.text("kind").orElse("run").toLowerCase(Locale.ROOT);
        boolean nothing = metres.orElse(0) == 0 && seconds.orElse(0) == 0;
        if (kind.equals("rest")) {
            if (!nothing || effort.orElse(0) > 0) {
                row.problem("A rest day has no distance, duration or rpe; correct the kind or clear the cells.");
            }
            rest.add(day.get());
            return;
        }
        if (metres.isPresent() && nothing) {
            rest.add(day.get());
            return;
        }
        if (metres.isEmpty() && seconds.isEmpty()) {
            notes.add(file + ":" + row.line() + ": " + day.get()
                    + " has neither distance nor duration; what was done that day counts as unknown.");
        }
        sessions.add(new Session(
                day.get(),
                start,
                metres,
                seconds,
                OptionalLong.empty(),
                effort,
                ascent,
                descent,
                OptionalDouble.empty(),
                Sports.isRunning(kind),
                row.text("surface").orElse(""),
                false,
                0,
                file + ":" + row.line()));
    }

    private Optional<LocalDate> date(DiaryRow row, String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException e) {
            row.problem("'" + text + "' is not a day as year-month-day, such as 2026-03-02; "
                    + "day and month are never guessed.");
            return Optional.empty();
        }
    }

    private Optional<OffsetDateTime> start(DiaryRow row, String text) {
        try {
            return Optional.of(
                    OffsetDateTime.parse(text).atZoneSameInstant(zone).toOffsetDateTime());
        } catch (DateTimeException withOffset) {
            try {
                return Optional.of(
                        LocalDateTime.parse(text.replace(' ', 'T')).atZone(zone).toOffsetDateTime());
            } catch (DateTimeException local) {
                row.problem("'" + text + "' is not a time such as 2026-03-02T06:30 or 2026-03-02T06:30:00+01:00.");
                return Optional.empty();
            }
        }
    }

    private void problem(int line, String message) {
        problems.add(new Problem(file, line, 0, message));
    }
}
