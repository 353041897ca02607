package org.gerdy.engine.knowledge;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.gerdy.engine.logic.Expression;

/** One CSV table of a knowledge base, every cell read through the row it stands in so that faults name their line. */
public final class Table {
    private static final CSVFormat FORMAT = CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .setIgnoreEmptyLines(true)
            .get();

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
                CSVParser parser = FORMAT.parse(reader)) {
            Map<String, Integer> header = parser.getHeaderMap();
            for (String column : columns) {
                if (!header.containsKey(column)) {
                    throw new KnowledgeException(
                            path + ": the column '" + column + "' is missing; add it to the header.");
                }
            }
            List<Row> rows = new ArrayList<>();
            for (CSVRecord csv : parser) {
                if (!csv.isConsistent()) {
                    throw new KnowledgeException(path + ":" + parser.getCurrentLineNumber() + ": this row has "
                            + csv.size() + " cells, the header has " + header.size()
                            + "; put text with a comma in quotes.");
                }
                rows.add(new Row(path, (int) parser.getCurrentLineNumber(), csv));
            }
            if (rows.isEmpty()) {
                throw new KnowledgeException(path + ": the table has no rows; an empty table would silence its rules.");
            }
            return new Table(path, List.copyOf(parser.getHeaderNames()), List.copyOf(rows));
        } catch (IOException | java.io.UncheckedIOException | IllegalArgumentException e) {
            throw new KnowledgeException(path + ": could not be read: " + e.getMessage() + ".", e);
        }
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
        private final CSVRecord cells;

        Row(String table, int line, CSVRecord cells) {
            this.table = table;
            this.line = line;
            this.cells = cells;
        }

        /** Line of the file the row ends on, from 1. */
        public int line() {
            return line;
        }

        /** The cell, stripped; empty when blank. */
        public String text(String column) {
            return cells.isMapped(column) ? cells.get(column).strip() : "";
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
            return text.isEmpty()
                    ? List.of()
                    : Arrays.stream(text.split("\\|")).map(String::strip).collect(Collectors.toUnmodifiableList());
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
