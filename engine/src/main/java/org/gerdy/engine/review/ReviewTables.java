package org.gerdy.engine.review;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.NumberRange;
import org.gerdy.engine.knowledge.Settings;
import org.gerdy.engine.knowledge.Table;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.plan.ScheduleTables;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;

/**
 * The tables a review is made from.
 *
 * @param instruments the instruments, by id
 * @param measurements every published row, by id
 * @param choices which rows serve whom
 * @param course the course table
 * @param settings single numbers of plan and review
 */
public record ReviewTables(
        Map<String, Instrument> instruments,
        Map<String, Measurement> measurements,
        List<Choice> choices,
        List<CourseRow> course,
        Settings settings) {

    /**
     * Which rows serve an instrument for patients with a condition.
     *
     * @param condition the condition, or empty for any
     */
    public record Choice(String instrument, String condition, Threshold threshold) {}

    /** Reads the tables. Throws {@link KnowledgeException} naming file and line of any fault. */
    public static ReviewTables load(KnowledgeFiles files, Catalogue catalogue, Set<String> conditions) {
        Map<String, Instrument> instruments = new LinkedHashMap<>();
        files.table("outcome-instruments.csv", "instrument", "label", "role", "findings", "low", "high", "better")
                .map(row -> instruments.put(row.required("instrument"), instrument(row, catalogue)));
        Map<String, Measurement> measurements = new LinkedHashMap<>();
        files.table(
                        "outcome-measures.csv",
                        "id",
                        "instrument",
                        "low",
                        "high",
                        "better",
                        "sem",
                        "mdc",
                        "mcid",
                        "population")
                .map(row -> measurements.put(row.required("id"), measurement(row, instruments)));
        List<Choice> choices = files.table(
                        "outcome-choice.csv", "instrument", "condition", "mcid_row", "mdc_row", "borrowed")
                .map(row -> choice(row, instruments, measurements, conditions));
        List<CourseRow> course = files.table("course.csv", "id", "kind", "text", "response", "trigger", "action")
                .map(row -> courseRow(row, catalogue));
        return new ReviewTables(instruments, measurements, choices, course, ScheduleTables.settings(files));
    }

    /** The thresholds for this instrument: those of the first of these conditions that has some, else those for any. */
    public Threshold threshold(String instrument, List<String> conditions) {
        List<String> order = new ArrayList<>(conditions);
        order.add("");
        return order.stream()
                .flatMap(condition -> choices.stream()
                        .filter(choice -> choice.instrument().equals(instrument)
                                && choice.condition().equals(condition)))
                .findFirst()
                .map(Choice::threshold)
                .orElse(new Threshold(Optional.empty(), Optional.empty(), ""));
    }

    private static Instrument instrument(Table.Row row, Catalogue catalogue) {
        for (String finding : row.list("findings")) {
            if (!catalogue.knows(finding)) {
                throw row.wrong("there is no finding '" + finding + "'.");
            }
        }
        String role = row.required("role");
        Instrument.Role known;
        try {
            known = Instrument.Role.valueOf(role.toUpperCase(Locale.ROOT));
        } catch (IllegalArgumentException e) {
            throw new KnowledgeException("outcome-instruments.csv:" + row.line() + ": '" + role + "' is no role.", e);
        }
        return new Instrument(
                row.required("instrument"),
                row.required("label"),
                known,
                row.list("findings"),
                row.requiredNumber("low"),
                row.number("high"),
                higher(row));
    }

    private static boolean higher(Table.Row row) {
        return switch (row.required("better")) {
            case "higher" -> true;
            case "lower" -> false;
            default -> throw row.wrong("'" + row.text("better") + "' in 'better' should be higher or lower.");
        };
    }

    private static Measurement measurement(Table.Row row, Map<String, Instrument> instruments) {
        Instrument instrument = instruments.get(row.required("instrument"));
        if (instrument == null) {
            throw row.wrong("'" + row.text("instrument") + "' is not an instrument.");
        }
        if (instrument.higherIsBetter() != higher(row)
                || instrument.low() != row.requiredNumber("low")
                || !instrument.high().equals(row.number("high"))) {
            throw row.wrong("range or direction differ from those of " + instrument.id() + "; they are other scores.");
        }
        return new Measurement(
                row.required("id"),
                instrument.id(),
                row.number("sem"),
                NumberRange.of(row, "mdc"),
                row.number("mdc_level"),
                NumberRange.of(row, "mcid"),
                row.required("population"),
                row.list("source"),
                Basis.of(row.required("basis")),
                row.text("note"));
    }

    private static Choice choice(
            Table.Row row,
            Map<String, Instrument> instruments,
            Map<String, Measurement> measurements,
            Set<String> conditions) {
        String instrument = row.required("instrument");
        String condition = row.text("condition");
        if (!instruments.containsKey(instrument) || !(condition.isEmpty() || conditions.contains(condition))) {
            throw row.wrong("'" + instrument + "' or '" + condition + "' is not known.");
        }
        return new Choice(
                instrument,
                condition,
                new Threshold(
                        chosen(row, "mdc_row", instrument, measurements),
                        chosen(row, "mcid_row", instrument, measurements),
                        row.text("borrowed")));
    }

    private static Optional<Measurement> chosen(
            Table.Row row, String column, String instrument, Map<String, Measurement> measurements) {
        String id = row.text(column);
        if (id.isEmpty()) {
            return Optional.empty();
        }
        Measurement found = measurements.get(id);
        if (found == null || !found.instrument().equals(instrument)) {
            throw row.wrong("'" + id + "' in '" + column + "' is not a row of " + instrument + ".");
        }
        boolean filled = column.equals("mdc_row")
                ? found.detectable().isPresent()
                : found.important().isPresent();
        if (!filled) {
            throw row.wrong("'" + id + "' has no number for '" + column + "'.");
        }
        return Optional.of(found);
    }

    private static CourseRow courseRow(Table.Row row, Catalogue catalogue) {
        String id = row.required("id");
        Basis basis = Basis.of(row.required("basis"));
        return switch (row.required("kind")) {
            case "expected" ->
                new CourseRow.Expected(
                        id,
                        row.required("text"),
                        row.required("series"),
                        row.number("from_week"),
                        row.required("population"),
                        row.list("source"),
                        basis);
            case "visit" ->
                new CourseRow.Visit(
                        id,
                        row.required("text"),
                        row.requiredNumber("from_week"),
                        row.requiredNumber("before_week"),
                        row.list("source"),
                        basis);
            case "escalation" -> escalation(row, id, basis, catalogue);
            default -> throw row.wrong("'" + row.text("kind") + "' should be expected, visit or escalation.");
        };
    }

    private static CourseRow escalation(Table.Row row, String id, Basis basis, Catalogue catalogue) {
        Optional<Expression> expression = row.expression("when");
        Set<String> unknown = new LinkedHashSet<>();
        expression.ifPresent(found ->
                found.findings().stream().filter(f -> !catalogue.knows(f)).forEach(unknown::add));
        if (!unknown.isEmpty()) {
            throw row.wrong("there is no finding " + unknown + ".");
        }
        OptionalDouble from = row.number("from_week");
        return new CourseRow.Escalation(
                id,
                row.required("text"),
                from,
                row.number("before_week"),
                row.list("response").stream()
                        .map(word ->
                                Response.valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_')))
                        .toList(),
                row.text("trigger").isEmpty()
                        ? CourseRow.Trigger.NONE
                        : CourseRow.Trigger.valueOf(
                                row.text("trigger").toUpperCase(Locale.ROOT).replace('-', '_')),
                expression,
                row.number("adherence_below"),
                row.number("adherence_from"),
                row.required("action"),
                row.required("within"),
                row.list("source"),
                basis);
    }
}
