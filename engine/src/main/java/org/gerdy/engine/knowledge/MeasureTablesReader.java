package org.gerdy.engine.knowledge;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.gerdy.engine.measure.Band;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.Span;
import org.gerdy.engine.measure.Trials;
import org.gerdy.engine.vocabulary.Basis;

/** Reads the tables of measures, their norms, errors and bands. */
final class MeasureTablesReader {
    private final KnowledgeFiles files;

    MeasureTablesReader(KnowledgeFiles files) {
        this.files = files;
    }

    List<Band> bands(Map<String, MeasureDefinition> measures) {
        return files.table("measure-bands.csv", "measure", "low", "high", "name", "means", "source", "basis")
                .map(row -> band(row, measures));
    }

    Map<String, MeasureDefinition> measures() {
        return byId(
                files.table(
                                "measures.csv",
                                "id",
                                "label",
                                "kind",
                                "per_side",
                                "finding",
                                "units",
                                "trials",
                                "aggregate",
                                "choices",
                                "min",
                                "max",
                                "retake_beyond",
                                "set_up",
                                "steps",
                                "example",
                                "source",
                                "basis")
                        .map(MeasureTablesReader::measure),
                MeasureDefinition::id,
                "measures.csv");
    }

    private static MeasureDefinition measure(Table.Row row) {
        MeasureKind kind = MeasureKind.of(row.required("kind"));
        basis(row);
        boolean words = kind == MeasureKind.CHOICE || kind == MeasureKind.GRADE;
        if (words == row.list("choices").isEmpty()) {
            throw row.wrong(
                    words ? "'choices' is blank; list the words." : "'choices' is only for choices and grades.");
        }
        if (!words && row.list("units").isEmpty()) {
            throw row.wrong("'units' is blank; a number without a unit means nothing.");
        }
        return new MeasureDefinition(
                row.required("id"),
                row.required("label"),
                kind,
                row.yes("per_side"),
                blankless(row.text("finding")),
                row.list("units"),
                (int) row.requiredNumber("trials"),
                Trials.Aggregate.valueOf(row.required("aggregate").toUpperCase(java.util.Locale.ROOT)),
                row.list("choices"),
                row.number("min"),
                row.number("max"),
                row.number("retake_beyond"),
                words(row, "set_up"),
                List.of(row.required("steps").split("\\|")),
                row.list("source"),
                row.text("note"),
                kind == MeasureKind.LABORATORY ? "" : row.required("example"));
    }

    /** {@code key=word/word|key=*}; a star takes any text. */
    private static Map<String, List<String>> words(Table.Row row, String column) {
        Map<String, List<String>> words = new LinkedHashMap<>();
        for (String item : row.list(column)) {
            String[] pair = pair(row, column, item);
            words.put(pair[0], pair[1].equals("*") ? List.of() : Arrays.asList(pair[1].split("/")));
        }
        return java.util.Collections.unmodifiableMap(words);
    }

    private static String[] pair(Table.Row row, String column, String item) {
        String[] pair = item.split("=", 2);
        if (pair.length != 2 || pair[0].isBlank() || pair[1].isBlank()) {
            throw row.wrong("'" + item + "' in '" + column + "' should be name=word.");
        }
        return pair;
    }

    Map<String, Norm> norms(Map<String, MeasureDefinition> measures) {
        return byId(
                files.table(
                                "factor-norms.csv",
                                "id",
                                "measure",
                                "sex",
                                "age_low",
                                "age_high",
                                "mean",
                                "per_year",
                                "sd",
                                "low",
                                "high",
                                "unit",
                                "set_up",
                                "population",
                                "compared",
                                "source",
                                "basis")
                        .map(row -> {
                            Map<String, String> setUp = new LinkedHashMap<>();
                            MeasureDefinition measure = known(row, measures);
                            for (String item : row.list("set_up")) {
                                String[] pair = pair(row, "set_up", item);
                                List<String> words = measure.setUp().get(pair[0]);
                                if (words == null || (!words.isEmpty() && !words.contains(pair[1]))) {
                                    throw row.wrong("'" + item + "' is no set-up of " + measure.id() + ".");
                                }
                                setUp.put(pair[0], pair[1]);
                            }
                            return new Norm(
                                    row.required("id"),
                                    measure.id(),
                                    row.text("sex"),
                                    row.number("age_low"),
                                    row.number("age_high"),
                                    row.number("mean"),
                                    row.number("per_year"),
                                    row.number("sd"),
                                    row.number("low"),
                                    row.number("high"),
                                    row.required("unit"),
                                    java.util.Collections.unmodifiableMap(setUp),
                                    row.text("population"),
                                    row.yes("compared"),
                                    row.list("source"),
                                    basis(row),
                                    row.text("note"));
                        }),
                Norm::id,
                "factor-norms.csv");
    }

    Map<String, ErrorRow> errors(Map<String, MeasureDefinition> measures) {
        return byId(
                files.table(
                                "factor-errors.csv",
                                "id",
                                "measure",
                                "method",
                                "about",
                                "sem",
                                "mdc",
                                "icc",
                                "kappa",
                                "unit",
                                "basis")
                        .map(row -> new ErrorRow(
                                row.required("id"),
                                known(row, measures).id(),
                                row.text("method"),
                                row.required("about"),
                                span(row, "sem"),
                                span(row, "mdc"),
                                span(row, "icc"),
                                span(row, "kappa"),
                                row.text("unit"),
                                row.text("population"),
                                row.list("source"),
                                basis(row),
                                row.text("note"))),
                ErrorRow::id,
                "factor-errors.csv");
    }

    private static Band band(Table.Row row, Map<String, MeasureDefinition> measures) {
        OptionalDouble low = row.number("low");
        OptionalDouble high = row.number("high");
        if (low.orElse(Double.NEGATIVE_INFINITY) > high.orElse(Double.POSITIVE_INFINITY)) {
            throw row.wrong("the band ends below its beginning.");
        }
        return new Band(
                known(row, measures).id(),
                low,
                high,
                row.required("name"),
                row.required("means"),
                row.list("source"),
                basis(row));
    }

    /** The basis of a row; what is published or recalled names its source. */
    static Basis basis(Table.Row row) {
        Basis basis = Basis.of(row.required("basis"));
        if ((basis == Basis.PUBLISHED || basis == Basis.RECALLED)
                && row.list("source").isEmpty()) {
            throw row.wrong("the basis is " + basis.word() + " but 'source' is blank; name it.");
        }
        return basis;
    }

    private static MeasureDefinition known(Table.Row row, Map<String, MeasureDefinition> measures) {
        MeasureDefinition measure = measures.get(row.required("measure"));
        if (measure == null) {
            throw row.wrong("there is no measure '" + row.text("measure") + "'.");
        }
        return measure;
    }

    private static Optional<Span> span(Table.Row row, String column) {
        String text = row.text(column);
        return text.isEmpty() ? Optional.empty() : Optional.of(Span.of(text));
    }

    static Optional<String> blankless(String text) {
        return text.isEmpty() ? Optional.empty() : Optional.of(text);
    }

    static <T> Map<String, T> byId(List<T> rows, Function<T, String> id, String file) {
        Map<String, T> map = new LinkedHashMap<>();
        for (T row : rows) {
            if (map.put(id.apply(row), row) != null) {
                throw new KnowledgeException(file + ": the id '" + id.apply(row) + "' stands twice.");
            }
        }
        return java.util.Collections.unmodifiableMap(map);
    }
}
