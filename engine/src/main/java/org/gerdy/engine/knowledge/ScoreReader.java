package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Points;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;

/** Reads the scores and the decision rules. */
final class ScoreReader {
    private final KnowledgeFiles files;
    private final Catalogue catalogue;

    ScoreReader(KnowledgeFiles files, Catalogue catalogue) {
        this.files = files;
        this.catalogue = catalogue;
    }

    List<ScoreDefinition> scores() {
        return files.table("scores.csv", "id", "label", "items", "bands", "applies_if", "exclusions", "basis")
                .map(row -> {
                    List<Points.Item> items = new ArrayList<>();
                    List<String> labels = new ArrayList<>();
                    for (String text : row.list("items")) {
                        String[] parts = text.split(":", 3);
                        if (parts.length != 3) {
                            throw row.wrong("the item '" + text + "' should be points:expression:label.");
                        }
                        Expression condition = Expression.parse(parts[1]);
                        KnownWords.known(catalogue, condition, row);
                        items.add(new Points.Item(Double.parseDouble(parts[0].strip()), condition));
                        labels.add(parts[2].strip());
                    }
                    Optional<Expression> appliesIf = row.expression("applies_if");
                    appliesIf.ifPresent(expression -> KnownWords.known(catalogue, expression, row));
                    Optional<Expression> exclusions = row.expression("exclusions");
                    exclusions.ifPresent(expression -> KnownWords.known(catalogue, expression, row));
                    return new ScoreDefinition(
                            row.required("id"),
                            row.required("label"),
                            new Points(List.copyOf(items)),
                            List.copyOf(labels),
                            row.list("bands").stream()
                                    .map(text -> band(row, text))
                                    .toList(),
                            appliesIf,
                            exclusions,
                            row.list("source"),
                            Basis.of(row.required("basis")),
                            row.text("note"));
                });
    }

    private static ScoreDefinition.Band band(Table.Row row, String text) {
        int colon = text.indexOf(':');
        int dots = text.indexOf("..");
        if (colon < 0 || dots < colon) {
            throw row.wrong("the band '" + text + "' should be name:low..high, with either end open.");
        }
        String low = text.substring(colon + 1, dots).strip();
        String high = text.substring(dots + 2).strip();
        return new ScoreDefinition.Band(
                text.substring(0, colon).strip(),
                low.isEmpty() ? Double.NEGATIVE_INFINITY : Double.parseDouble(low),
                high.isEmpty() ? Double.POSITIVE_INFINITY : Double.parseDouble(high));
    }

    List<DecisionRule> decisionRules() {
        return files.table("decision-rules.csv", "id", "label", "applies_if", "criteria", "excluded_if", "basis")
                .map(row -> {
                    String id = row.required("id");
                    List<DecisionRule.Criterion> criteria = new ArrayList<>();
                    for (String text : row.list("criteria")) {
                        int colon = text.indexOf(':');
                        if (colon < 0) {
                            throw row.wrong("the criterion '" + text + "' should be name:expression.");
                        }
                        Expression met = Expression.parse(text.substring(colon + 1));
                        KnownWords.known(catalogue, met, row);
                        criteria.add(new DecisionRule.Criterion(
                                text.substring(0, colon).strip(), met));
                    }
                    Optional<Expression> appliesIf = row.expression("applies_if");
                    Optional<Expression> excludedIf = row.expression("excluded_if");
                    appliesIf.ifPresent(expression -> KnownWords.known(catalogue, expression, row));
                    excludedIf.ifPresent(expression -> KnownWords.known(catalogue, expression, row));
                    return new DecisionRule(
                            id,
                            row.required("label"),
                            appliesIf,
                            excludedIf,
                            List.copyOf(criteria),
                            row.text("positive_means"),
                            row.text("negative_means"),
                            row.text("not_applicable_means"),
                            row.list("source"),
                            Basis.of(row.required("basis")));
                });
    }
}
