package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.cli.Factors;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.cli.document.Document.Fine;
import org.gerdy.cli.document.Document.Grid;
import org.gerdy.cli.document.Document.Para;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.measure.FactorVerdict;

/** Contributing factors with their pictures: what counts or nearly counts in a row each, the rest by name. */
final class FactorSection {
    private final Naming naming;

    FactorSection(Naming naming) {
        this.naming = naming;
    }

    /** The section; empty when nothing is to be said, or when what presses leaves no room for it. */
    Optional<Section> of(Assessment assessment) {
        List<FactorResult> told = Factors.told(assessment);
        boolean pressing = Factors.pressing(assessment);
        if (!Factors.shown(assessment)) {
            return Optional.empty();
        }
        List<Block> blocks = new ArrayList<>();
        if (pressing) {
            blocks.add(new Para(Factors.LATER));
        }
        if (!told.isEmpty()) {
            blocks.add(new Grid(
                    "What contributes, and what is borderline",
                    List.of("Factor", "Verdict", "Found", "Tie to this complaint in studies"),
                    told.stream()
                            .map(factor -> List.of(
                                    factor.label(),
                                    FactorChart.verdict(factor.verdict()),
                                    Factors.found(factor),
                                    factor.tie().replace('-', ' ')))
                            .toList()));
        }
        List<FactorResult> notFound = assessment.factors(FactorVerdict.NOT_FOUND);
        if (!pressing) {
            List<FactorResult> drawn = new ArrayList<>(told);
            drawn.addAll(notFound);
            blocks.addAll(FactorChart.of(drawn, assessment.side()));
            assessment
                    .load()
                    .ifPresent(load -> blocks.add(TrainingChart.of(
                            load, naming.knowledge().loadSettings().referenceDays())));
        }
        assessment
                .load()
                .filter(load -> !load.notes().isEmpty())
                .ifPresent(load -> blocks.add(new Fine("Training record: " + String.join(" ", load.notes()))));
        if (!notFound.isEmpty()) {
            blocks.add(new Fine("Looked at, nothing that counts: "
                    + notFound.stream().map(FactorResult::label).collect(Collectors.joining("; ")) + "."));
        }
        Set<String> sources = new LinkedHashSet<>();
        told.forEach(factor -> factor.reasons().forEach(reason -> sources.addAll(reason.sources())));
        if (!told.isEmpty()) {
            blocks.add(new Fine("A factor is never called a cause. Norms, errors and studies of each, with sources ("
                    + String.join(", ", sources) + "): 'gerdy explain'."));
        }
        return Optional.of(new Section("factors", "Contributing factors", blocks));
    }
}
