package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** Reads every finding, asked and worked out. */
final class CatalogueReader {
    private final KnowledgeFiles files;

    CatalogueReader(KnowledgeFiles files) {
        this.files = files;
    }

    Catalogue catalogue() {
        List<Table> asked = new ArrayList<>();
        for (String name : List.of("findings.csv", "plan-findings.csv")) {
            asked.add(files.table(name, "id", "section", "question", "kind", "per_side", "only_if", "danger_when"));
        }
        List<Table> worked = new ArrayList<>();
        for (String name : List.of("derived.csv", "red-flag-terms.csv", "terms.csv", "plan-terms.csv")) {
            worked.add(files.table(name, "id", "label", "means", "basis"));
        }
        Set<String> ids = new LinkedHashSet<>();
        List<FindingDefinition> findings = new ArrayList<>();
        asked.forEach(table -> findings.addAll(table.map(row -> finding(row, ids))));
        List<ComputedFinding> computed = new ArrayList<>();
        worked.forEach(table -> computed.addAll(table.map(row -> computed(row, ids))));
        Catalogue made = Catalogue.of(findings, computed);
        asked.forEach(table -> table.map(row -> {
            FindingDefinition finding = made.finding(row.required("id")).orElseThrow();
            finding.onlyIf().ifPresent(gate -> KnownWords.known(made, gate, row));
            finding.contradicts().forEach(relation -> KnownWords.known(made, relation.other(), row));
            finding.implies().forEach(relation -> KnownWords.known(made, relation.other(), row));
            return finding;
        }));
        worked.forEach(table -> table.map(row -> {
            ComputedFinding finding = made.computed(row.required("id")).orElseThrow();
            KnownWords.known(made, finding.means(), row);
            return finding;
        }));
        return made;
    }

    /** The id of a row, which nothing before it may bear. */
    private static String ownId(Table.Row row, Set<String> ids) {
        String id = row.required("id");
        if (!ids.add(id)) {
            throw row.wrong("the finding '" + id + "' is defined twice; give each its own id.");
        }
        return id;
    }

    private static FindingDefinition finding(Table.Row row, Set<String> ids) {
        Kind kind = Kind.of(row.required("kind"));
        return new FindingDefinition(
                ownId(row, ids),
                row.required("section"),
                row.text("topic"),
                row.required("question"),
                row.text("technique"),
                kind,
                row.list("choices"),
                row.text("unit"),
                kind == Kind.SCALE_0_10 ? OptionalDouble.of(0) : row.number("min"),
                kind == Kind.SCALE_0_10 ? OptionalDouble.of(10) : row.number("max"),
                row.yes("per_side"),
                row.expression("only_if"),
                row.yes("provocative"),
                (int) row.number("seconds").orElse(5),
                row.text("equipment"),
                row.text("danger_when"),
                row.text("cluster"),
                relations(row, "contradicts"),
                relations(row, "implies"),
                row.text("note"));
    }

    /** {@code other=value}, or {@code own-answer:other=value} where the finding is a choice. */
    private static List<FindingDefinition.Relation> relations(Table.Row row, String column) {
        List<FindingDefinition.Relation> relations = new ArrayList<>();
        for (String text : row.list(column)) {
            int colon = text.indexOf(':');
            String when = colon < 0 ? "present" : text.substring(0, colon).strip();
            String[] pair = text.substring(colon + 1).split("=", 2);
            if (pair.length != 2) {
                throw row.wrong("'" + text + "' in '" + column + "' should be finding=state.");
            }
            relations.add(new FindingDefinition.Relation(when, pair[0].strip(), pair[1].strip()));
        }
        return List.copyOf(relations);
    }

    private static ComputedFinding computed(Table.Row row, Set<String> ids) {
        return new ComputedFinding(
                ownId(row, ids),
                row.required("label"),
                Expression.parse(row.required("means")),
                row.list("source"),
                Basis.of(row.required("basis")));
    }
}
