package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;

/** Reads the conditions, what speaks for and against them, and how common they are. */
final class DifferentialReader {
    private final KnowledgeFiles files;
    private final Catalogue catalogue;
    private final Map<String, Condition> conditions;
    // Few ratios stand in many rows; each is read once.
    private final Map<List<String>, Optional<EvidenceRow.Ratio>> ratios = new HashMap<>();

    DifferentialReader(KnowledgeFiles files, Catalogue catalogue, List<RedFlagRow> redFlags) {
        this.files = files;
        this.catalogue = catalogue;
        this.conditions = conditions(redFlags);
    }

    /** Every condition, by id. */
    Map<String, Condition> conditions() {
        return conditions;
    }

    private Map<String, Condition> conditions(List<RedFlagRow> redFlags) {
        Map<String, Condition> byId = new LinkedHashMap<>();
        Map<String, List<String>> guards = new LinkedHashMap<>();
        files.table("guards.csv", "condition", "flag", "basis")
                .map(row -> guards.computeIfAbsent(row.required("condition"), ignored -> new ArrayList<>())
                        .add(row.required("flag")));
        List<Condition> all = files.table(
                        "conditions.csv", "id", "name", "structure", "usual_disposition", "must_not_miss")
                .map(row -> condition(row, guards.getOrDefault(row.required("id"), List.of())));
        for (Condition condition : all) {
            if (byId.put(condition.id(), condition) != null) {
                throw new KnowledgeException("conditions.csv: the condition '" + condition.id() + "' stands twice.");
            }
        }
        guards.keySet().stream().filter(id -> !byId.containsKey(id)).forEach(id -> {
            throw new KnowledgeException("guards.csv: '" + id + "' is not a condition.");
        });
        if (!byId.containsKey(Condition.UNEXPLAINED)) {
            throw new KnowledgeException(
                    "conditions.csv: the row 'unexplained' is missing; nothing may be forced to fit.");
        }
        Set<String> flags = new LinkedHashSet<>();
        redFlags.forEach(row -> flags.add(row.flag()));
        for (Condition condition : all) {
            for (Condition.LookAlike other : condition.lookAlikes()) {
                if (!byId.containsKey(other.condition())) {
                    throw new KnowledgeException("conditions.csv: the look-alike '" + other.condition() + "' of "
                            + condition.id() + " is not a condition.");
                }
            }
            for (String flag : condition.flags()) {
                if (!flags.contains(flag)) {
                    throw new KnowledgeException(
                            "guards.csv: '" + flag + "' of " + condition.id() + " is not a red flag.");
                }
            }
        }
        return Collections.unmodifiableMap(byId);
    }

    private static Condition condition(Table.Row row, List<String> flags) {
        List<Condition.LookAlike> lookAlikes = new ArrayList<>();
        for (String text : row.list("look_alikes")) {
            int colon = text.indexOf(':');
            if (colon < 0) {
                throw row.wrong("the look-alike '" + text + "' should be condition: what separates them.");
            }
            lookAlikes.add(new Condition.LookAlike(
                    text.substring(0, colon).strip(), text.substring(colon + 1).strip()));
        }
        return new Condition(
                row.required("id"),
                row.required("name"),
                row.text("structure"),
                row.text("who"),
                row.text("typical_onset"),
                row.text("typical_age"),
                row.text("gives_away"),
                List.copyOf(lookAlikes),
                row.text("settled_by"),
                row.required("usual_disposition"),
                row.yes("must_not_miss"),
                List.copyOf(flags),
                row.text("icd10cm_right"),
                row.text("icd10cm_left"),
                row.text("icd10cm_unspecified"),
                row.text("icd_basis"),
                row.text("sex_limit"),
                row.number("age_min"),
                row.number("age_max"),
                row.list("sources"),
                row.text("note"));
    }

    EvidenceTable evidence() {
        Set<String> pairs = new LinkedHashSet<>();
        return new EvidenceTable(files.table("evidence.csv", "finding", "condition", "lr_pos", "lr_neg", "basis")
                .map(row -> {
                    EvidenceRow made = new EvidenceRow(
                            row.required("finding"),
                            row.required("condition"),
                            ratio(row, "lr_pos"),
                            ratio(row, "lr_neg"),
                            row.text("cluster"),
                            row.text("origin"),
                            Basis.of(row.required("basis")),
                            row.list("source"),
                            row.text("note"));
                    KnownWords.known(catalogue, made.finding(), row);
                    if (!conditions.containsKey(made.condition())) {
                        throw row.wrong("'" + made.condition() + "' is not a condition.");
                    }
                    if (!pairs.add(made.finding() + "/" + made.condition())) {
                        throw row.wrong(
                                made.finding() + " already has a row for " + made.condition() + "; pool or choose.");
                    }
                    if (made.whenPresent().isEmpty() && made.whenAbsent().isEmpty()) {
                        throw row.wrong("the row carries no weight; fill lr_pos or lr_neg, or drop it.");
                    }
                    return made;
                }));
    }

    private Optional<EvidenceRow.Ratio> ratio(Table.Row row, String column) {
        return ratios.computeIfAbsent(
                List.of(row.text(column), row.text(column + "_low"), row.text(column + "_high")),
                ignored -> readRatio(row, column));
    }

    private static Optional<EvidenceRow.Ratio> readRatio(Table.Row row, String column) {
        OptionalDouble value = row.number(column);
        if (value.isEmpty()) {
            return Optional.empty();
        }
        double low = row.requiredNumber(column + "_low");
        double high = row.requiredNumber(column + "_high");
        if (!(low > 0 && low <= value.getAsDouble() && value.getAsDouble() <= high && Double.isFinite(high))) {
            throw row.wrong(column + " should lie within its bounds, all above zero and finite.");
        }
        return Optional.of(new EvidenceRow.Ratio(value.getAsDouble(), low, high));
    }

    Priors priors() {
        Map<String, Priors.PopulationCard> populations = new LinkedHashMap<>();
        files.table("populations.csv", "id", "label", "who", "basis")
                .map(row -> new Priors.PopulationCard(
                        row.required("id"),
                        row.required("label"),
                        row.text("who"),
                        row.text("arithmetic"),
                        Basis.of(row.required("basis")),
                        row.list("source")))
                .forEach(card -> populations.put(card.id(), card));
        Map<String, Map<String, Priors.Prior>> byPopulation = new LinkedHashMap<>();
        files.table("priors.csv", "population", "condition", "prior", "low", "high", "basis")
                .map(row -> {
                    String population = row.required("population");
                    String condition = row.required("condition");
                    if (!populations.containsKey(population) || !conditions.containsKey(condition)) {
                        throw row.wrong("'" + population + "' or '" + condition + "' is not known.");
                    }
                    return byPopulation
                            .computeIfAbsent(population, ignored -> new LinkedHashMap<>())
                            .put(
                                    condition,
                                    new Priors.Prior(
                                            row.requiredNumber("prior"),
                                            row.requiredNumber("low"),
                                            row.requiredNumber("high"),
                                            Basis.of(row.required("basis")),
                                            row.list("source")));
                });
        for (String population : populations.keySet()) {
            Set<String> missing = new LinkedHashSet<>(conditions.keySet());
            missing.removeAll(byPopulation.getOrDefault(population, Map.of()).keySet());
            if (!missing.isEmpty()) {
                throw new KnowledgeException(
                        "priors.csv: the population '" + population + "' has no row for " + missing + ".");
            }
        }
        return new Priors(populations, byPopulation);
    }
}
