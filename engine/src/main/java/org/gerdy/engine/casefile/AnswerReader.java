package org.gerdy.engine.casefile;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.engine.vocabulary.Units;

/** Reads a block of findings, each answer against its definition. */
final class AnswerReader {
    private static final List<String> STATES = List.of("present", "absent", "unable");

    private final String file;
    private final Catalogue catalogue;
    private final List<Problem> problems;

    AnswerReader(String file, Catalogue catalogue, List<Problem> problems) {
        this.file = file;
        this.catalogue = catalogue;
        this.problems = problems;
    }

    /** The answers of the patient block. */
    Map<String, Recorded> ofPatient(Tree.Mapping block, Map<String, Tree.Place> places) {
        return read(block, Optional.empty(), places);
    }

    /** The answers of a visit whose painful side is known. */
    Map<String, Recorded> ofVisit(Tree.Mapping block, Side side, Map<String, Tree.Place> places) {
        return read(block, Optional.of(side), places);
    }

    private Map<String, Recorded> read(Tree.Mapping block, Optional<Side> side, Map<String, Tree.Place> places) {
        Map<String, Recorded> recorded = new LinkedHashMap<>();
        block.members().forEach((id, member) -> {
            places.put(id, member.key());
            Optional<FindingDefinition> definition = catalogue.finding(id);
            if (definition.isEmpty()) {
                problem(member.key(), unknown(id));
            } else {
                recorded(definition.get(), member, side).ifPresent(answer -> recorded.put(id, answer));
            }
        });
        return recorded;
    }

    private String unknown(String id) {
        if (catalogue.computed(id).isPresent()) {
            return "'" + id + "' is computed and never recorded; record " + String.join(", ", catalogue.askedBehind(id))
                    + " instead.";
        }
        return noFinding(catalogue, id);
    }

    /** That there is no such finding, and the nearest there is. */
    static String noFinding(Catalogue catalogue, String id) {
        return "There is no finding '" + id + "'; "
                + catalogue
                        .nearest(id)
                        .map(nearest -> "did you mean '" + nearest + "'?")
                        .orElse("'gerdy rules list findings' shows them all.");
    }

    private Optional<Recorded> recorded(FindingDefinition definition, Tree.Member member, Optional<Side> side) {
        if (member.value() instanceof Tree.Mapping sides) {
            if (!definition.perSide()) {
                problem(sides.place(), "'" + definition.id() + "' is about the person, not a side; give one answer.");
                return Optional.empty();
            }
            return Optional.of(new Recorded.Sides(on(definition, sides, "left"), on(definition, sides, "right")));
        }
        if (!(member.value() instanceof Tree.Scalar scalar) || scalar.type() == Tree.Type.NULL) {
            problem(
                    member.value().place(),
                    "'" + definition.id() + "' has no answer; write " + expected(definition) + " or leave it out.");
            return Optional.empty();
        }
        Optional<Answer> answer = answer(definition, scalar);
        if (!definition.perSide()) {
            return answer.map(Recorded.Whole::new);
        }
        if (side.isEmpty() || side.get() == Side.BOTH) {
            String why = side.isEmpty() ? "belongs to a visit, not to the patient block" : "needs a side here";
            problem(
                    scalar.place(),
                    "'" + definition.id() + "' " + why
                            + "; write {left: ..., right: ...} with what was found on each.");
            return Optional.empty();
        }
        return answer.map(given -> side.get() == Side.LEFT
                ? new Recorded.Sides(Optional.of(given), Optional.empty())
                : new Recorded.Sides(Optional.empty(), Optional.of(given)));
    }

    private Optional<Answer> on(FindingDefinition definition, Tree.Mapping sides, String side) {
        Tree.Member member = sides.members().get(side);
        if (member == null || !(member.value() instanceof Tree.Scalar scalar)) {
            return Optional.empty();
        }
        return answer(definition, scalar);
    }

    private Optional<Answer> answer(FindingDefinition definition, Tree.Scalar scalar) {
        String text = scalar.text().strip();
        return switch (definition.kind()) {
            case YES_NO -> state(definition, scalar, text);
            case CHOICE -> choice(definition, scalar, text);
            case DATE -> day(definition, scalar, text);
            case NUMBER, SCALE_0_10, DURATION -> quantity(definition, scalar, text);
        };
    }

    private Optional<Answer> state(FindingDefinition definition, Tree.Scalar scalar, String text) {
        if (STATES.contains(text)) {
            return Optional.of(Answer.State.valueOf(text.toUpperCase(Locale.ROOT)));
        }
        problem(
                scalar.place(),
                "'" + definition.id() + "' is '" + text + "'; it takes present, absent or unable" + hint(text, STATES));
        return Optional.empty();
    }

    private Optional<Answer> choice(FindingDefinition definition, Tree.Scalar scalar, String text) {
        if (definition.choices().contains(text)) {
            return Optional.of(new Answer.Choice(text));
        }
        problem(
                scalar.place(),
                "'" + definition.id() + "' is '" + text + "'; it takes one of: "
                        + String.join(", ", definition.choices()) + hint(text, definition.choices()));
        return Optional.empty();
    }

    private static String hint(String text, List<String> words) {
        return Catalogue.nearest(text, words)
                .map(nearest -> "; did you mean '" + nearest + "'?")
                .orElse(".");
    }

    private Optional<Answer> day(FindingDefinition definition, Tree.Scalar scalar, String text) {
        try {
            return Optional.of(new Answer.Day(LocalDate.parse(text)));
        } catch (DateTimeException e) {
            problem(
                    scalar.place(),
                    "'" + definition.id() + "' is '" + text + "'; write a day as year-month-day, such as 2026-03-02.");
            return Optional.empty();
        }
    }

    private Optional<Answer> quantity(FindingDefinition definition, Tree.Scalar scalar, String text) {
        Optional<Units.Written> written = Units.read(text);
        if (written.isEmpty()) {
            problem(
                    scalar.place(),
                    "'" + definition.id() + "' is '" + text + "'; it takes " + expected(definition) + ".");
            return Optional.empty();
        }
        String unit = written.get().unit();
        OptionalDouble value = unit.isEmpty()
                ? OptionalDouble.of(written.get().value())
                : Units.convert(written.get().value(), unit, definition.unit());
        if (value.isEmpty()) {
            problem(
                    scalar.place(),
                    "'" + definition.id() + "' is in '" + unit + "'; it takes "
                            + (definition.unit().isEmpty()
                                    ? "a bare number."
                                    : String.join(" or ", Units.alternatives(definition.unit())) + "."));
            return Optional.empty();
        }
        double number = value.getAsDouble();
        if (number < definition.min().orElse(Double.NEGATIVE_INFINITY)
                || number > definition.max().orElse(Double.POSITIVE_INFINITY)) {
            problem(
                    scalar.place(),
                    "'" + definition.id() + "' is " + text + ", outside " + range(definition)
                            + "; check the number and its unit.");
            return Optional.empty();
        }
        if (definition.kind() == Kind.SCALE_0_10 && number * 2 != Math.rint(number * 2)) {
            problem(scalar.place(), "'" + definition.id() + "' is " + text + "; use whole or half steps from 0 to 10.");
            return Optional.empty();
        }
        return Optional.of(new Answer.Quantity(number, text));
    }

    private static String range(FindingDefinition definition) {
        return plain(definition.min().orElse(Double.NEGATIVE_INFINITY)) + " to "
                + plain(definition.max().orElse(Double.POSITIVE_INFINITY))
                + (definition.unit().isEmpty() ? "" : " " + definition.unit());
    }

    private static String plain(double number) {
        return number == Math.rint(number) && !Double.isInfinite(number)
                ? Long.toString((long) number)
                : Double.toString(number);
    }

    private static String expected(FindingDefinition definition) {
        return switch (definition.kind()) {
            case YES_NO -> "present, absent or unable";
            case CHOICE -> "one of: " + String.join(", ", definition.choices());
            case DATE -> "a day such as 2026-03-02";
            case SCALE_0_10 -> "a number from 0 to 10";
            case NUMBER, DURATION -> "a number" + (definition.unit().isEmpty() ? "" : " in " + definition.unit());
        };
    }

    private void problem(Tree.Place place, String message) {
        problems.add(new Problem(file, place.line(), place.column(), message));
    }
}
