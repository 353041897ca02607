package org.gerdy.engine.knowledge;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.gerdy.engine.logic.Expression;

/** One CSV table of a knowledge base, every cell read through the row it stands in so that faults name their line. */
public final class Table {
    private final String name;
    private final List<String> columns;
    private final List<Row> rows;

    private Table(String name, List<String> columns, List<Row> rows) {
        this.name = name;
        this.columns = columns;
        this.rows = rows;
    }

    /** Reads a table. Throws {@link KnowledgeException} when the file is missing, malformed, empty, or lacks a column. */
    public static Table read(KnowledgeFiles files, String path, List<String> columns) {
        try (InputStream in = files.open(path);
                Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8);
                CsvReader<CsvRecord> parser = CsvReader.builder()
                        .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                        .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                        .ofCsvRecord(reader)) {
            Map<String, Integer> places = new LinkedHashMap<>();
            List<Row> rows = new ArrayList<>();
            for (CsvRecord record : parser) {
                if (places.isEmpty()) {
                    header(path, record, columns, places);
                } else {
                    rows.add(row(path, record, places));
                }
            }
            if (rows.isEmpty()) {
                throw new KnowledgeException(path + ": the table has no rows; an empty table would silence its rules.");
            }
            return new Table(path, List.copyOf(places.keySet()), List.copyOf(rows));
        } catch (IOException | UncheckedIOException | CsvParseException e) {
            throw new KnowledgeException(path + ": could not be read: " + e.getMessage() + ".", e);
        }
    }

    private static void header(String path, CsvRecord record, List<String> columns, Map<String, Integer> places) {
        for (String column : record.getFields()) {
            if (places.put(column, places.size()) != null) {
                throw new KnowledgeException(path + ": the column '" + column + "' stands twice; name each once.");
            }
        }
        for (String column : columns) {
            if (!places.containsKey(column)) {
                throw new KnowledgeException(path + ": the column '" + column + "' is missing; add it to the header.");
            }
        }
    }

    private static Row row(String path, CsvRecord record, Map<String, Integer> places) {
        int line = (int) record.getStartingLineNumber();
        if (record.getFieldCount() != places.size()) {
            throw new KnowledgeException(path + ":" + line + ": this row has " + record.getFieldCount()
                    + " cells, the header has " + places.size() + "; put text with a comma in quotes.");
        }
        return new Row(path, line, record, places);
    }

    /** The column names, in order. */
    public List<String> columns() {
        return columns;
    }

    /** Each row made into a value, in table order. A {@link RuntimeException} from a row comes out naming its line. */
    public <T> List<T> map(Function<Row, T> mapper) {
        List<T> values = new ArrayList<>();
        for (Row row : rows) {
            try {
                values.add(mapper.apply(row));
            } catch (KnowledgeException e) {
                throw e;
            } catch (RuntimeException e) {
                throw new KnowledgeException(name + ":" + row.line() + ": " + e.getMessage(), e);
            }
        }
        return values;
    }

    /** One row. */
    public static final class Row {
        private final String table;
        private final int line;
        private final CsvRecord cells;
        private final Map<String, Integer> places;

        Row(String table, int line, CsvRecord cells, Map<String, Integer> places) {
            this.table = table;
            this.line = line;
            this.cells = cells;
            this.places = places;
        }

        /** Line of the file the row begins on, from 1. */
        public int line() {
            return line;
        }

        /** The cell, stripped; empty when blank. */
        public String text(String column) {
            Integer place = places.get(column);
            return place == null ? "" : cells.getField(place).strip();
        }

        /** The cell, which must not be blank. */
        public String required(String column) {
            String text = text(column);
            if (text.isEmpty()) {
                throw wrong("the cell '" + column + "' is blank; fill it in.");
            }
            return text;
        }

        /** The items of a cell, separated by a vertical bar. */
        public List<String> list(String column) {
            String text = text(column);
            if (text.indexOf('|') < 0) {
                return text.isEmpty() ? List.of() : List.of(text);
            }
            return Arrays.stream(text.split("\\|")).map(String::strip).collect(Collectors.toUnmodifiableList());
        }

        /** The number of a cell; empty when blank. */
        public OptionalDouble number(String column) {
            String text = text(column);
            if (text.isEmpty()) {
                return OptionalDouble.empty();
            }
            try {
                return OptionalDouble.of(Double.parseDouble(text));
            } catch (NumberFormatException e) {
                throw new KnowledgeException(place() + "'" + text + "' in '" + column + "' is not a number.", e);
            }
        }

        /** The number of a cell, which must not be blank. */
        public double requiredNumber(String column) {
            return number(column).orElseThrow(() -> wrong("the cell '" + column + "' is blank; it takes a number."));
        }

        /** The expression of a cell; empty when blank. */
        public Optional<Expression> expression(String column) {
            String text = text(column);
            return text.isEmpty() ? Optional.empty() : Optional.of(Expression.parse(text));
        }

        /** Whether the cell says yes; blank and no are no. */
        public boolean yes(String column) {
            String text = text(column);
            if (!text.isEmpty() && !text.equals("yes") && !text.equals("no")) {
                throw wrong("'" + text + "' in '" + column + "' should be yes or no.");
            }
            return text.equals("yes");
        }

        /** A fault of this row. */
        public KnowledgeException wrong(String message) {
            return new KnowledgeException(place() + message);
        }

        private String place() {
            return table + ":" + line + ": ";
        }
    }
}
