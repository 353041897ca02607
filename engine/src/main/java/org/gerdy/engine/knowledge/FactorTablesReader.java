package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.gerdy.engine.load.LoadSettings;
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
import org.gerdy.engine.measure.Norm;

/** Reads the tables of measures and contributing factors and holds them against each other. */
public final class FactorTablesReader {
    private final KnowledgeFiles files;

    private FactorTablesReader(KnowledgeFiles files) {
        this.files = files;
    }

    /** The tables of a knowledge base. Throws {@link KnowledgeException} naming file and line of the first fault. */
    public static FactorTables factors(KnowledgeFiles files) {
        FactorTablesReader reader = new FactorTablesReader(files);
        MeasureTablesReader tables = new MeasureTablesReader(files);
        Map<String, MeasureDefinition> measures = tables.measures();
        Map<String, Norm> norms = tables.norms(measures);
        Map<String, ErrorRow> errors = tables.errors(measures);
        List<Band> bands = tables.bands(measures);
        List<FactorDefinition> factors = reader.factors();
        FactorChecks.check(factors, measures, norms, errors);
        return new FactorTables(measures, factors, norms, errors, bands, reader.names());
    }

    /** What was read on the factors, in table order. No verdict rests on it, so it is read apart. */
    public static List<EvidenceStatement> evidence(KnowledgeFiles files, FactorTables tables) {
        return new FactorTablesReader(files).evidence(tables.factors());
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

    private Map<String, Table.Row> settings() {
        Map<String, Table.Row> rows = new LinkedHashMap<>();
        files.table("factor-settings.csv", "name", "value", "basis").map(row -> rows.put(row.required("name"), row));
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

    private List<FactorDefinition> factors() {
        return new ArrayList<>(MeasureTablesReader.byId(
                        files.table(
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
                MeasureTablesReader.blankless(row.text("error")),
                row.list("norms"),
                row.expression("present_when"),
                row.list("words"),
                FactorVerdict.of(row.required("ceiling")),
                Tie.of(row.required("association_strength")),
                row.required("association"),
                row.text("belief"),
                row.text("advice"),
                row.list("source"),
                MeasureTablesReader.basis(row),
                row.text("note"));
    }

    private List<EvidenceStatement> evidence(List<FactorDefinition> factors) {
        List<String> ids = factors.stream().map(FactorDefinition::id).toList();
        return files.table("factor-evidence.csv", "id", "factor", "says", "population", "basis")
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
                            MeasureTablesReader.basis(row),
                            row.text("note"));
                });
    }
}
