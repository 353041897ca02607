package org.gerdy.cli;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Source;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.MeasuredValue;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.measure.Readings;

/** Measures as plain text: the list, how one is taken, and what readings of one mean. */
final class MeasurePages {
    private final KnowledgeBase knowledge;
    private final FactorTables tables;

    MeasurePages(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.tables = knowledge.factors();
    }

    /** Every measure in a line. */
    String list() {
        Page page = new Page();
        List<String> laboratory = new ArrayList<>();
        for (MeasureDefinition measure : tables.measures().values()) {
            if (measure.kind() == MeasureKind.LABORATORY) {
                laboratory.add(measure.label());
            } else {
                page.hanging(measure.id() + ": ", 4, line(measure));
            }
        }
        page.blank()
                .hanging("Known from studies, not measured at the bedside: ", 2, String.join("; ", laboratory) + ".");
        page.line("'gerdy measure ID --help' shows how one is taken.");
        return page.toString();
    }

    /** What a measure is, in a few words. */
    static String line(MeasureDefinition measure) {
        String unit = measure.kind() == MeasureKind.CHOICE || measure.kind() == MeasureKind.GRADE
                ? String.join(", ", measure.choices())
                : String.join(" or ", measure.units());
        return measure.label() + " (" + unit + (measure.perSide() ? "; each side" : "") + ")";
    }

    /** How a measure is taken, what to write down, how well it repeats, and an example. */
    String protocol(MeasureDefinition measure) {
        Page page = new Page().heading(measure.label());
        page.line("Id: " + measure.id());
        page.line("How it is taken:");
        for (int i = 0; i < measure.steps().size(); i++) {
            page.hanging("  " + (i + 1) + ". ", measure.steps().get(i));
        }
        page.hanging("Readings: ", 2, readings(measure));
        measure.setUp()
                .forEach((key, words) -> page.hanging(
                        "Write down " + key + ": ",
                        2,
                        words.isEmpty() ? "in your own words" : String.join(", ", words)));
        if (measure.kind() == MeasureKind.FORCE) {
            page.line("Write down lever: with cm or m; pain during the test: 0 to 10.");
        }
        Set<String> keys = new LinkedHashSet<>(measure.sources());
        for (ErrorRow row : tables.errorsOf(measure.id())) {
            if (!row.reliability().isEmpty()) {
                keys.addAll(row.sources());
                page.hanging(
                        "Repeats: ",
                        2,
                        row.reliability()
                                + (row.method().isEmpty() ? "" : "; " + row.method())
                                + (row.population().isEmpty() ? "" : " (" + row.population() + ")"));
            }
        }
        if (!measure.note().isEmpty()) {
            page.hanging("Note: ", 2, measure.note());
        }
        if (!measure.example().isEmpty()) {
            page.line("Example, with invented readings:");
            page.line("  gerdy measure " + measure.id() + " \\");
            String[] options = measure.example().split(" (?=--)", -1);
            for (int i = 0; i < options.length; i++) {
                page.line("    " + options[i] + (i + 1 < options.length ? " \\" : ""));
            }
        }
        sources(page, keys);
        return page.toString();
    }

    private static String readings(MeasureDefinition measure) {
        return switch (measure.kind()) {
            case CHOICE, GRADE -> "one of " + String.join(", ", measure.choices());
            case LABORATORY -> "none at the bedside";
            case INDEX ->
                measure.trials() + " items from " + Plain.number(measure.min().orElse(0)) + " to "
                        + Plain.number(measure.max().orElse(0)) + ", - for one that cannot be scored";
            default ->
                measure.trials()
                        + (measure.trials() == 1 ? " reading in " : " readings in ")
                        + String.join(" or ", measure.units())
                        + (measure.kind().series().size() > 1
                                ? " of each of: "
                                        + String.join(", ", measure.kind().series())
                                : "")
                        + (measure.trials() > 1 && measure.kind().series().size() == 1
                                ? "; the " + measure.aggregate().name().toLowerCase(java.util.Locale.ROOT) + " counts"
                                : "");
        };
    }

    /** What was read and what it means. */
    String meaning(MeasureDefinition measure, Visit visit, List<FactorResult> results) {
        Page page = new Page().heading(measure.label());
        Optional<Measured> measured = Optional.ofNullable(visit.measures().get(measure.id()));
        measured.ifPresent(taken -> {
            taken.left().ifPresent(readings -> value(page, "Left:  ", measure, readings));
            taken.right().ifPresent(readings -> value(page, "Right: ", measure, readings));
            taken.whole().ifPresent(readings -> value(page, "Value: ", measure, readings));
        });
        List<FactorResult> about = results.stream()
                .filter(result -> tables.factors().stream()
                        .filter(factor -> factor.id().equals(result.id()))
                        .flatMap(factor -> factor.reads().stream())
                        .anyMatch(read -> read.equals(measure.id()) || read.startsWith(measure.id() + "=")))
                .toList();
        for (FactorResult result : about) {
            page.blank();
            Factors.full(page, result);
            page.line("  Steps:");
            result.reasons().stream()
                    .filter(reason -> !reason.because().endsWith(result.association()))
                    .forEach(reason -> page.hanging("  - ", 4, reason.because()));
            page.hanging("", "'gerdy rules card " + result.id() + "' shows every study read on it.");
        }
        if (about.isEmpty()) {
            page.blank().line("No factor rests on this measure; it is kept with the visit.");
        }
        return page.toString();
    }

    private static void value(Page page, String label, MeasureDefinition measure, Readings readings) {
        MeasuredValue value = MeasuredValue.of(measure, readings);
        String text = value.value().isPresent()
                ? (Plain.brief(value.value().getAsDouble()) + " " + measure.unit()).strip()
                : value.word().isEmpty() ? "no number" : value.word();
        page.hanging(label, text + "." + (value.notes().isEmpty() ? "" : " " + String.join(" ", value.notes())));
    }

    private void sources(Page page, Set<String> keys) {
        boolean first = true;
        for (Map.Entry<String, Source> entry : knowledge.bibliography().entrySet()) {
            if (keys.contains(entry.getKey())) {
                if (first) {
                    page.line("Sources:");
                    first = false;
                }
                page.hanging("  " + entry.getKey() + ": ", 4, entry.getValue().citation());
            }
        }
    }
}
