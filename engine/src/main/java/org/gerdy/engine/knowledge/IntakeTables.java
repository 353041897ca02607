package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/**
 * What an intake needs beside the rules: the order of the danger screen, which flags hold painful tests back, how repeated
 * trials make one number.
 *
 * @param screen the danger screen, by place
 * @param holdsBack flags that hold provocative tests back while they are raised or open
 * @param trials how repeated trials of a finding are put together
 */
public record IntakeTables(List<Place> screen, Set<String> holdsBack, Map<String, Trials> trials) {
    /**
     * One place in the danger screen.
     *
     * @param finding the question
     * @param place smaller comes first
     * @param when who is asked it at this place; empty is everybody
     * @param chance how often the danger answer is met, 0 to 1, if this table says so
     * @param together the compact question it is part of: those of one name stand on one screen
     * @param basis where the place comes from
     * @param note why it stands here
     */
    public record Place(
            String finding,
            double place,
            Optional<Expression> when,
            OptionalDouble chance,
            Optional<String> together,
            Basis basis,
            String note) {}

    /** How repeated trials make one number. */
    public enum Trials {
        /** The largest. */
        BEST,
        /** The arithmetic mean. */
        MEAN
    }

    static IntakeTables read(KnowledgeFiles files, Catalogue catalogue, Set<String> flags) {
        List<Place> screen = new ArrayList<>(Table.read(
                        files, "knowledge/intake-order.csv", List.of("finding", "place", "when", "chance", "basis"))
                .map(row -> {
                    String id = row.required("finding");
                    FindingDefinition finding =
                            catalogue.finding(id).orElseThrow(() -> row.wrong(KnownWords.noFinding(catalogue, id)));
                    Optional<String> together =
                            Optional.of(row.text("together")).filter(text -> !text.isEmpty());
                    if (together.isPresent()
                            && (finding.kind() != Kind.YES_NO || finding.isReversed() || finding.provocative())) {
                        throw row.wrong("only yes-or-no questions stand together on one screen, none that"
                                + " provokes and none where no is the danger sign.");
                    }
                    Optional<Expression> when = Optional.of(row.text("when"))
                            .filter(text -> !text.isEmpty())
                            .map(Expression::parse);
                    when.stream()
                            .flatMap(one -> one.findings().stream())
                            .forEach(read -> KnownWords.known(catalogue, read, row));
                    OptionalDouble chance = row.number("chance");
                    if (chance.isPresent() && !(chance.getAsDouble() > 0 && chance.getAsDouble() < 1)) {
                        throw row.wrong("the chance should lie between 0 and 1.");
                    }
                    return new Place(
                            id,
                            row.requiredNumber("place"),
                            when,
                            chance,
                            together,
                            Basis.of(row.required("basis")),
                            row.text("note"));
                }));
        screen.sort(Comparator.comparingDouble(Place::place));
        Set<String> holdsBack =
                new LinkedHashSet<>(Table.read(files, "knowledge/hold-back.csv", List.of("flag", "basis"))
                        .map(row -> {
                            String flag = row.required("flag");
                            Basis ignored = Basis.of(row.required("basis"));
                            if (!flags.contains(flag)) {
                                throw row.wrong("'" + flag + "' is not a red flag"
                                        + Catalogue.nearest(flag, flags)
                                                .map(near -> "; did you mean '" + near + "'?")
                                                .orElse("."));
                            }
                            return flag;
                        }));
        Map<String, Trials> trials = new LinkedHashMap<>();
        Table.read(files, "knowledge/trials.csv", List.of("finding", "keep", "basis"))
                .map(row -> {
                    String id = row.required("finding");
                    Basis ignored = Basis.of(row.required("basis"));
                    if (catalogue
                            .finding(id)
                            .filter(finding -> finding.kind().isQuantity())
                            .isEmpty()) {
                        throw row.wrong("'" + id + "' is not a number that can be tried again.");
                    }
                    Trials keep =
                            switch (row.required("keep")) {
                                case "best" -> Trials.BEST;
                                case "mean" -> Trials.MEAN;
                                default -> throw row.wrong("'keep' is best or mean.");
                            };
                    return trials.put(id, keep);
                });
        return new IntakeTables(List.copyOf(screen), Set.copyOf(holdsBack), Map.copyOf(trials));
    }

    /** The questions of the danger screen whose answers decide what is asked after them. */
    public Set<String> steering() {
        Set<String> read = new LinkedHashSet<>();
        screen.forEach(place -> place.when().ifPresent(when -> read.addAll(when.findings())));
        read.retainAll(screen.stream().map(Place::finding).toList());
        return read;
    }

    /** How trials of this finding are put together; the mean where the table is silent. */
    public Trials trials(FindingDefinition finding) {
        return trials.getOrDefault(finding.id(), Trials.MEAN);
    }
}
