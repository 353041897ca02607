package org.gerdy.engine.plan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.KnownWords;
import org.gerdy.engine.knowledge.NumberRange;
import org.gerdy.engine.knowledge.Table;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * The tables a plan is made from, held against the catalogue when read. A wrong id stops the load.
 *
 * @param stages the stages, earliest first
 * @param items the plan table, in order
 * @param notAdvised what is not advised
 * @param interim advice until somebody else has seen the patient
 */
public record PlanTables(
        List<String> stages, List<PlanItem> items, List<NotAdvised> notAdvised, List<InterimAdvice> interim) {

    /** The ids other tables define. */
    public record Ids(Set<String> flags, Set<String> conditions) {}

    /** Reads the tables. Throws {@link KnowledgeException} naming file and line of any fault. */
    public static PlanTables load(KnowledgeFiles files, Catalogue catalogue, Ids ids) {
        List<String> stages = files.table("stages.csv", "id", "label", "meaning", "basis")
                .map(row -> {
                    Basis.of(row.required("basis"));
                    return row.required("id");
                });
        Reader reader = new Reader(catalogue, ids, Set.copyOf(stages));
        List<PlanItem> items = files.table(
                        "plan-items.csv",
                        "id",
                        "label",
                        "category",
                        "stage",
                        "dose",
                        "stop",
                        "contraindications",
                        "evidence")
                .map(reader::item);
        List<NotAdvised> notAdvised = files.table("not-advised.csv", "id", "label", "why", "instead", "for_conditions")
                .map(reader::notAdvised);
        List<InterimAdvice> interim = files.table("interim-advice.csv", "id", "flag", "urgency", "while_open", "advice")
                .map(reader::interim);
        return new PlanTables(stages, items, notAdvised, interim);
    }

    /** These tables with another item under an id; added at the end when there was none, left out when empty. */
    public PlanTables withItem(String id, Optional<PlanItem> changed) {
        List<PlanItem> with = new ArrayList<>();
        boolean placed = false;
        for (PlanItem item : items) {
            if (item.id().equals(id)) {
                changed.ifPresent(with::add);
                placed = true;
            } else {
                with.add(item);
            }
        }
        if (!placed) {
            changed.ifPresent(with::add);
        }
        return new PlanTables(stages, List.copyOf(with), notAdvised, interim);
    }

    /** The item of this id. Throws {@link KnowledgeException} when the plan table has none. */
    public PlanItem item(String id) {
        return items.stream()
                .filter(item -> item.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new KnowledgeException("plan-items.csv has no row '" + id + "'."));
    }

    private static final class Reader {
        private final Catalogue catalogue;
        private final Ids ids;
        private final Set<String> stages;
        private final Set<String> seen = new LinkedHashSet<>();

        Reader(Catalogue catalogue, Ids ids, Set<String> stages) {
            this.catalogue = catalogue;
            this.ids = ids;
            this.stages = stages;
        }

        PlanItem item(Table.Row row) {
            return new PlanItem(
                    unused(row),
                    row.required("label"),
                    row.required("category"),
                    among(row, "stage", stages),
                    among(row, "for_conditions", ids.conditions()),
                    row.list("for_factors"),
                    new Dose(
                            row.required("dose"),
                            NumberRange.of(row, "sets"),
                            NumberRange.of(row, "reps"),
                            NumberRange.of(row, "hold_s"),
                            NumberRange.of(row, "per_week"),
                            NumberRange.of(row, "per_day"),
                            row.yes("both_sides")),
                    row.required("progression"),
                    row.required("stop"),
                    new PlanItem.Limits(
                            contraindication(row),
                            among(row, "contraindicated_flags", ids.flags()),
                            among(row, "contraindicated_conditions", ids.conditions())),
                    new PlanItem.Evidence(
                            row.required("evidence_strength"),
                            row.required("evidence"),
                            sources(row),
                            Basis.of(row.required("basis"))),
                    row.required("patient_words"),
                    row.text("drawing"),
                    row.text("opens"),
                    row.text("note"));
        }

        NotAdvised notAdvised(Table.Row row) {
            return new NotAdvised(
                    unused(row),
                    row.required("label"),
                    row.required("why"),
                    row.text("instead"),
                    among(row, "for_conditions", ids.conditions()),
                    among(row, "stage", stages),
                    sources(row),
                    Basis.of(row.required("basis")));
        }

        InterimAdvice interim(Table.Row row) {
            String flag = row.text("flag");
            if (!flag.isEmpty()) {
                among(row, "flag", ids.flags());
            }
            List<Urgency> urgencies = new ArrayList<>();
            for (String word : row.list("urgency")) {
                urgencies.add(Urgency.of(word).orElseThrow(() -> row.wrong("'" + word + "' is not an urgency.")));
            }
            boolean whileOpen = row.yes("while_open");
            if (flag.isEmpty() && urgencies.isEmpty() && !whileOpen) {
                throw row.wrong(
                        "the row belongs to no flag, no urgency and no open screening; it would never be read.");
            }
            return new InterimAdvice(
                    unused(row),
                    flag,
                    List.copyOf(urgencies),
                    whileOpen,
                    row.required("advice"),
                    row.required("patient_words"),
                    sources(row),
                    Basis.of(row.required("basis")));
        }

        /** A blank cell would be a silent gap, so an item without contraindication says {@code none}. */
        private Optional<Expression> contraindication(Table.Row row) {
            String text = row.required("contraindications");
            if (text.equals("none")) {
                return Optional.empty();
            }
            Expression expression = Expression.parse(text);
            expression.findings().forEach(id -> KnownWords.known(catalogue, id, row));
            return Optional.of(expression);
        }

        private List<String> sources(Table.Row row) {
            List<String> sources = row.list("source");
            Basis basis = Basis.of(row.required("basis"));
            if (sources.isEmpty() && (basis == Basis.PUBLISHED || basis == Basis.RECALLED)) {
                throw row.wrong("a row whose basis is " + basis.word() + " names its source.");
            }
            return sources;
        }

        private static List<String> among(Table.Row row, String column, Set<String> known) {
            List<String> values = row.list(column);
            for (String value : values) {
                if (!known.contains(value)) {
                    throw row.wrong("'" + value + "' in '" + column + "' is not known"
                            + Catalogue.nearest(value, known)
                                    .map(nearest -> "; did you mean '" + nearest + "'?")
                                    .orElse("."));
                }
            }
            return values;
        }

        private String unused(Table.Row row) {
            String id = row.required("id");
            if (!seen.add(id)) {
                throw row.wrong("the id '" + id + "' is used twice; give each row its own.");
            }
            return id;
        }
    }
}
