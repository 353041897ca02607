package org.gerdy.engine.casefile;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Finds answers that cannot stand together. They are shown and never changed. */
public final class ClashFinder {
    private final Terms terms;

    /** A finder that knows these words and clashes. */
    public ClashFinder(Terms terms) {
        this.terms = terms;
    }

    /** Every clash among the answers, each as one sentence with the findings it names first. */
    public List<Found> clashes(Observations observations) {
        Set<Found> found = new LinkedHashSet<>();
        for (String id : observations.recorded().keySet()) {
            FindingDefinition finding = observations.catalogue().finding(id).orElseThrow();
            for (FindingDefinition.Relation relation : finding.contradicts()) {
                if (observations.is(id, relation.when()) == Truth.TRUE
                        && observations.recorded(relation.other()).isPresent()
                        && observations.is(relation.other(), relation.value()) == Truth.TRUE) {
                    Set<String> pair = new java.util.TreeSet<>(List.of(id, relation.other()));
                    found.add(new Found(
                            List.copyOf(pair),
                            String.join(
                                            " and ",
                                            pair.stream()
                                                    .map(one -> "'" + one + "' " + observations.shown(one))
                                                    .toList())
                                    + " cannot both hold; look at both again."));
                }
            }
            for (FindingDefinition.Relation relation : finding.implies()) {
                if (observations.is(id, relation.when()) == Truth.TRUE
                        && observations.recorded(relation.other()).isPresent()
                        && observations.is(relation.other(), relation.value()) == Truth.FALSE) {
                    found.add(new Found(
                            List.of(id, relation.other()),
                            "'" + id + "' " + observations.shown(id) + " means '" + relation.other() + "' is "
                                    + relation.value() + ", but it is recorded " + observations.shown(relation.other())
                                    + "."));
                }
            }
        }
        for (Terms.Clash clash : terms.clashes()) {
            if (clash.when().in(observations) == Truth.TRUE) {
                List<String> recorded = observations.catalogue().askedBehind(clash.when()).stream()
                        .filter(id -> observations.recorded(id).isPresent())
                        .toList();
                found.add(new Found(recorded, clash.message()));
            }
        }
        return List.copyOf(found);
    }

    /** The same, and every measure that differs from its finding. */
    public List<Found> clashes(Observations observations, Map<String, Measured> taken) {
        List<Found> found = new ArrayList<>(clashes(observations));
        if (!taken.isEmpty()) {
            MeasuredFindings measured = terms.measured();
            taken.values().forEach(one -> measured.finding(one).ifPresent(finding -> observations
                    .recorded(finding.id())
                    .ifPresent(recorded -> measured.differences(one, recorded)
                            .forEach(said -> found.add(new Found(List.of(finding.id()), said))))));
        }
        return List.copyOf(found);
    }

    /** One clash. */
    public record Found(List<String> findings, String message) {}

    List<Problem> problems(String file, CaseFile caseFile, Places places) {
        List<Problem> problems = new ArrayList<>();
        int index = 0;
        for (Visit visit : caseFile.visits()) {
            int at = index++;
            for (Found clash : clashes(Observations.of(terms, caseFile, visit), visit.measures())) {
                Tree.Place place = clash.findings().isEmpty()
                        ? new Tree.Place(1, 1)
                        : clash.findings().stream()
                                .map(id -> places.find(at, id))
                                .max(java.util.Comparator.comparingInt(Tree.Place::line))
                                .orElseThrow();
                problems.add(new Problem(file, place.line(), place.column(), clash.message()));
            }
        }
        return problems.stream().distinct().sorted().toList();
    }
}
