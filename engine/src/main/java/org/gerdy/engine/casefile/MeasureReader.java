package org.gerdy.engine.casefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.MeasureText;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.MeasuredValue;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.vocabulary.Catalogue;

/** Reads the measures block of a visit, each measure against its definition. */
final class MeasureReader {
    private static final Set<String> SIDES = Set.of("left", "right");
    private static final String LEVER = "lever";
    private static final String PAIN = "pain";
    private static final String WHOLE = "trials";

    private final String file;
    private final Map<String, MeasureDefinition> measures;
    private final List<Problem> problems;

    MeasureReader(String file, Map<String, MeasureDefinition> measures, List<Problem> problems) {
        this.file = file;
        this.measures = measures;
        this.problems = problems;
    }

    /** The measures of a block, by id; what is wrong goes to the problem list. */
    Map<String, Measured> read(Tree.Mapping block) {
        Map<String, Measured> read = new LinkedHashMap<>();
        block.members().forEach((id, member) -> {
            MeasureDefinition definition = measures.get(id);
            if (definition == null) {
                problem(
                        member.key(),
                        "There is no measure '" + id + "'; "
                                + Catalogue.nearest(id, measures.keySet())
                                        .map(nearest -> "did you mean '" + nearest + "'?")
                                        .orElse("'gerdy measure' lists them."));
            } else {
                measured(definition, member).ifPresent(measured -> read.put(id, measured));
            }
        });
        return read;
    }

    private Optional<Measured> measured(MeasureDefinition definition, Tree.Member member) {
        int before = problems.size();
        MeasureText text = new MeasureText(definition);
        if (definition.kind() == MeasureKind.LABORATORY) {
            problem(member.key(), "'" + definition.id() + "' is not measured at the bedside; leave it out.");
            return Optional.empty();
        }
        if (!(member.value() instanceof Tree.Mapping map)) {
            if (definition.perSide()) {
                problem(member.key(), "'" + definition.id() + "' is taken on each side; write left: and right:.");
                return Optional.empty();
            }
            return side(definition, text, member.value(), OptionalDouble.empty(), OptionalDouble.empty())
                    .map(readings -> Measured.whole(definition.id(), Map.of(), readings));
        }
        Map<String, String> setUp = setUp(definition, text, map);
        Optional<Measured> measured = definition.perSide()
                ? sides(definition, text, map, setUp)
                : Optional.ofNullable(map.members().get(WHOLE))
                        .flatMap(whole ->
                                side(definition, text, whole.value(), OptionalDouble.empty(), OptionalDouble.empty()))
                        .map(readings -> Measured.whole(definition.id(), setUp, readings));
        if (measured.isEmpty() && problems.size() == before) {
            problem(
                    map.place(),
                    "'" + definition.id() + "' holds no reading; write "
                            + (definition.perSide() ? "left: and right:." : WHOLE + ": with the readings."));
        }
        return problems.size() == before ? measured : Optional.empty();
    }

    private Map<String, String> setUp(MeasureDefinition definition, MeasureText text, Tree.Mapping map) {
        Map<String, String> setUp = new LinkedHashMap<>();
        boolean force = definition.kind() == MeasureKind.FORCE;
        map.members().forEach((key, member) -> {
            boolean readings = definition.perSide() ? SIDES.contains(key) : key.equals(WHOLE);
            if (readings || (force && (key.equals(LEVER) || key.equals(PAIN)))) {
                return;
            }
            if (!(member.value() instanceof Tree.Scalar scalar)) {
                problem(member.key(), "'" + key + "' takes one word.");
                return;
            }
            told(member.key(), () -> setUp.put(key, text.setUp(key, scalar.text())));
        });
        return java.util.Collections.unmodifiableMap(setUp);
    }

    private Optional<Measured> sides(
            MeasureDefinition definition, MeasureText text, Tree.Mapping map, Map<String, String> setUp) {
        Optional<Readings> left = side(definition, text, map, "left");
        Optional<Readings> right = side(definition, text, map, "right");
        return left.isEmpty() && right.isEmpty()
                ? Optional.empty()
                : Optional.of(new Measured(definition.id(), setUp, left, right, Optional.empty()));
    }

    private Optional<Readings> side(MeasureDefinition definition, MeasureText text, Tree.Mapping map, String side) {
        Tree.Member member = map.members().get(side);
        return member == null
                ? Optional.empty()
                : side(
                        definition,
                        text,
                        member.value(),
                        number(map, LEVER, side, text::lever),
                        number(map, PAIN, side, text::pain));
    }

    private interface Reads {
        double of(String text);
    }

    /** A number given once for both sides, or by side. */
    private OptionalDouble number(Tree.Mapping map, String key, String side, Reads reads) {
        Tree.Member member = map.members().get(key);
        if (member == null) {
            return OptionalDouble.empty();
        }
        Tree value = member.value();
        if (value instanceof Tree.Mapping bySide) {
            Tree.Member own = bySide.members().get(side);
            if (own == null) {
                return OptionalDouble.empty();
            }
            value = own.value();
        }
        List<Double> read = new ArrayList<>();
        if (value instanceof Tree.Scalar scalar) {
            told(scalar.place(), () -> read.add(reads.of(scalar.text())));
        } else {
            problem(member.key(), "'" + key + "' takes one number, or one for left: and one for right:.");
        }
        return read.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(read.get(0));
    }

    private Optional<Readings> side(
            MeasureDefinition definition, MeasureText text, Tree tree, OptionalDouble lever, OptionalDouble pain) {
        List<Readings> read = new ArrayList<>();
        told(tree.place(), () -> {
            Readings readings = readings(definition, text, tree, lever, pain);
            MeasuredValue.of(definition, readings);
            read.add(readings);
        });
        return read.stream().findFirst();
    }

    private static Readings readings(
            MeasureDefinition definition, MeasureText text, Tree tree, OptionalDouble lever, OptionalDouble pain) {
        if (definition.kind() == MeasureKind.CHOICE || definition.kind() == MeasureKind.GRADE) {
            if (!(tree instanceof Tree.Scalar scalar)) {
                throw new IllegalArgumentException(
                        "'" + definition.id() + "' takes one of " + String.join(", ", definition.choices()) + ".");
            }
            return new Readings(Map.of(), text.word(scalar.text()), lever, pain);
        }
        List<String> names = definition.kind().series();
        Map<String, List<OptionalDouble>> series = new LinkedHashMap<>();
        if (names.size() == 1) {
            series.put(names.get(0), text.series(texts(tree, definition)));
        } else {
            if (!(tree instanceof Tree.Mapping map) || !map.members().keySet().equals(Set.copyOf(names))) {
                throw new IllegalArgumentException("'" + definition.id() + "' takes " + names.get(0) + ": and "
                        + names.get(1) + ": on each side.");
            }
            for (String name : names) {
                Tree.Member member = map.members().get(name);
                if (member != null) {
                    series.put(name, text.series(texts(member.value(), definition)));
                }
            }
        }
        return new Readings(java.util.Collections.unmodifiableMap(series), "", lever, pain);
    }

    private static List<String> texts(Tree tree, MeasureDefinition definition) {
        if (tree instanceof Tree.Scalar scalar && scalar.type() != Tree.Type.NULL) {
            return List.of(scalar.text());
        }
        List<String> texts = new ArrayList<>();
        if (tree instanceof Tree.Sequence list) {
            for (Tree item : list.items()) {
                if (!(item instanceof Tree.Scalar scalar)) {
                    throw new IllegalArgumentException("'" + definition.id() + "' takes a list of readings.");
                }
                texts.add(scalar.text());
            }
            return texts;
        }
        throw new IllegalArgumentException("'" + definition.id() + "' takes a reading or a list of readings.");
    }

    private void told(Tree.Place place, Runnable reading) {
        try {
            reading.run();
        } catch (IllegalArgumentException e) {
            problem(place, String.valueOf(e.getMessage()));
        }
    }

    private void problem(Tree.Place place, String message) {
        problems.add(new Problem(file, place.line(), place.column(), message));
    }
}
