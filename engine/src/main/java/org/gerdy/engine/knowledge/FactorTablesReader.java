package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.gerdy.engine.load.LoadSettings;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.measure.Band;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.EvidenceStatement;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorDefinition.Direction;
import org.gerdy.engine.measure.FactorDefinition.Method;
import org.gerdy.engine.measure.FactorDefinition.Tie;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.Span;
import org.gerdy.engine.measure.Trials;
import org.gerdy.engine.vocabulary.Basis;

/** Reads the tables of measures and contributing factors and holds them against each other. */
public final class FactorTablesReader {
    private final KnowledgeFiles files;

    private FactorTablesReader(KnowledgeFiles files) {
        this.files = files;
    }

    /** The tables of a knowledge base. Throws {@link KnowledgeException} naming file and line of the first fault. */
    public static FactorTables factors(KnowledgeFiles files) {
        FactorTablesReader reader = new FactorTablesReader(files);
        Map<String, MeasureDefinition> measures = reader.measures();
        Map<String, Norm> norms = reader.norms(measures);
        Map<String, ErrorRow> errors = reader.errors(measures);
        List<Band> bands = reader.table("measure-bands.csv", "measure", "name", "means", "basis")
                .map(row -> reader.band(row, measures));
        List<FactorDefinition> factors = reader.factors();
        FactorChecks.check(factors, measures, norms, errors);
        List<EvidenceStatement> evidence = reader.evidence(factors);
        return new FactorTables(measures, factors, norms, errors, bands, evidence, reader.names());
    }

    /** The settings training load is reckoned with. */
    public static LoadSettings load(KnowledgeFiles files) {
        FactorTablesReader reader = new FactorTablesReader(files);
        Map<String, Table.Row> rows = reader.settings();
        return new LoadSettings(
                (int) number(rows, "acute-days"),
                (int) number(rows, "chronic-days"),
                (int) number(rows, "reference-days"),
                (int) number(rows, "reference-known-days"),
                setting(rows, "spike-bands").list("value").stream()
                        .map(Integer::valueOf)
                        .toList(),
                (int) number(rows, "steady-days"),
                number(rows, "highest-monotony"),
                (int) number(rows, "same-start-seconds"),
                number(rows, "same-distance-percent"),
                (int) number(rows, "join-minutes"),
                number(rows, "fastest"),
                number(rows, "pause-speed"),
                (int) number(rows, "pause-seconds"),
                (int) number(rows, "long-stop-seconds"),
                number(rows, "climb-step"),
                number(rows, "device-gap-percent"),
                number(rows, "stride-rate-below"));
    }

    private Table table(String name, String... columns) {
        return Table.read(files, "knowledge/" + name, List.of(columns));
    }

    private Map<String, Table.Row> settings() {
        Map<String, Table.Row> rows = new LinkedHashMap<>();
        table("factor-settings.csv", "name", "value", "basis").map(row -> rows.put(row.required("name"), row));
        return rows;
    }

    private static Table.Row setting(Map<String, Table.Row> rows, String name) {
        Table.Row row = rows.get(name);
        if (row == null) {
            throw new KnowledgeException("factor-settings.csv: the row '" + name + "' is missing.");
        }
        return row;
    }

    private static double number(Map<String, Table.Row> rows, String name) {
        return setting(rows, name).requiredNumber("value");
    }

    private FactorTables.Settings names() {
        Map<String, Table.Row> rows = settings();
        Function<String, String> name = key -> setting(rows, key).required("value");
        return new FactorTables.Settings(
                name.apply("age-finding"),
                name.apply("sex-finding"),
                name.apply("mass-finding"),
                name.apply("height-finding"),
                name.apply("first-painful-finding"),
                name.apply("mass-index-measure"),
                number(rows, "pain-stops"),
                (int) number(rows, "grade-steps"));
    }

    private Map<String, MeasureDefinition> measures() {
        return byId(
                table(
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
                                "source",
                                "basis")
                        .map(FactorTablesReader::measure),
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
                row.text("note"));
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

    private Map<String, Norm> norms(Map<String, MeasureDefinition> measures) {
        return byId(
                table(
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

    private Map<String, ErrorRow> errors(Map<String, MeasureDefinition> measures) {
        return byId(
                table(
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

    private Band band(Table.Row row, Map<String, MeasureDefinition> measures) {
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

    private List<FactorDefinition> factors() {
        return new ArrayList<>(byId(
                        table(
                                        "factors.csv",
                                        "id",
                                        "label",
                                        "domain",
                                        "method",
                                        "reads",
                                        "direction",
                                        "unit",
                                        "borderline_beyond",
                                        "contributes_beyond",
                                        "error",
                                        "norms",
                                        "present_when",
                                        "words",
                                        "ceiling",
                                        "association_strength",
                                        "association",
                                        "basis")
                                .map(FactorTablesReader::factor),
                        FactorDefinition::id,
                        "factors.csv")
                .values());
    }

    private static FactorDefinition factor(Table.Row row) {
        String when = row.text("present_when");
        return new FactorDefinition(
                row.required("id"),
                row.required("label"),
                row.required("domain"),
                Method.of(row.required("method")),
                row.list("reads"),
                Direction.of(row.required("direction")),
                row.text("unit"),
                row.number("borderline_beyond"),
                row.number("contributes_beyond"),
                blankless(row.text("error")),
                row.list("norms"),
                when.isEmpty() ? Optional.empty() : Optional.of(Expression.parse(when)),
                row.list("words"),
                FactorVerdict.of(row.required("ceiling")),
                Tie.of(row.required("association_strength")),
                row.required("association"),
                row.text("belief"),
                row.text("advice"),
                row.list("source"),
                basis(row),
                row.text("note"));
    }

    private List<EvidenceStatement> evidence(List<FactorDefinition> factors) {
        List<String> ids = factors.stream().map(FactorDefinition::id).toList();
        return table("factor-evidence.csv", "id", "factor", "says", "population", "basis")
                .map(row -> {
                    String factor = row.text("factor");
                    if (!factor.isEmpty() && !ids.contains(factor)) {
                        throw row.wrong("there is no factor '" + factor + "'.");
                    }
                    return new EvidenceStatement(
                            row.required("id"),
                            factor,
                            row.required("says"),
                            row.text("population"),
                            row.list("source"),
                            basis(row),
                            row.text("note"));
                });
    }

    /** The basis of a row; what is published or recalled names its source. */
    private static Basis basis(Table.Row row) {
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

    private static Optional<String> blankless(String text) {
        return text.isEmpty() ? Optional.empty() : Optional.of(text);
    }

    private static <T> Map<String, T> byId(List<T> rows, Function<T, String> id, String file) {
        Map<String, T> map = new LinkedHashMap<>();
        for (T row : rows) {
            if (map.put(id.apply(row), row) != null) {
                throw new KnowledgeException(file + ": the id '" + id.apply(row) + "' stands twice.");
            }
        }
        return java.util.Collections.unmodifiableMap(map);
    }
}
