package org.gerdy.cli;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Source;
import org.gerdy.engine.measure.ErrorRow;
import org.gerdy.engine.measure.EvidenceStatement;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.Norm;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.vocabulary.Basis;

/** Cards of contributing factors, of measures, and of the rows their verdicts rest on. */
final class FactorCards {
    /** How the reason of a verdict names a row of the table of factors. */
    static final String FACTOR = "factor:";

    private static final String NORM = "norm:";
    private static final String ERROR = "error:";

    private final KnowledgeBase knowledge;

    FactorCards(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** How a measure is taken. */
    Optional<String> measure(String id) {
        return knowledge.factors().measure(id).map(new MeasurePages(knowledge)::protocol);
    }

    /** How the verdict on a factor comes about, and every study read on it. */
    Optional<String> factor(String id) {
        return knowledge.factors().factors().stream()
                .filter(factor -> factor.id().equals(id))
                .findFirst()
                .map(this::factor);
    }

    /** The row a reason names: of a factor, a norm or an error. */
    Optional<String> row(String rule) {
        if (rule.startsWith(FACTOR)) {
            return factor(rule.substring(FACTOR.length()));
        }
        if (rule.startsWith(NORM)) {
            return Optional.ofNullable(knowledge.factors().norms().get(rule.substring(NORM.length())))
                    .map(this::norm);
        }
        return rule.startsWith(ERROR)
                ? Optional.ofNullable(knowledge.factors().errors().get(rule.substring(ERROR.length())))
                        .map(this::error)
                : Optional.empty();
    }

    private String factor(FactorDefinition factor) {
        Page page = new Page().heading("Contributing factor " + factor.id());
        page.hanging("", factor.label() + " (" + factor.domain() + ")");
        line(page, "Reads:       ", String.join(", ", factor.reads()));
        line(page, "Present if:  ", factor.presentWhen().map(Object::toString).orElse(""));
        line(page, "Words:       ", String.join(", ", factor.words()));
        factor.borderlineBeyond().ifPresent(beyond -> line(page, "Borderline:  ", beyond(factor, beyond)));
        factor.contributesBeyond()
                .ifPresent(beyond ->
                        line(page, "Contributes: ", beyond(factor, beyond) + ", and beyond the error of measurement"));
        line(page, "Highest:     ", Words.plain(factor.ceiling().word()));
        line(page, "Tie:         ", Words.plain(factor.tie().word()) + ". " + factor.association());
        line(page, "Belief:      ", factor.belief());
        line(page, "Advice:      ", factor.advice());
        Set<String> keys = new LinkedHashSet<>(factor.sources());
        factor.error().map(id -> knowledge.factors().errors().get(id)).ifPresent(row -> {
            line(page, "Error:       ", row.reliability() + " [" + ERROR + row.id() + "]");
            keys.addAll(row.sources());
        });
        for (String id : factor.norms()) {
            Norm norm = knowledge.factors().norms().get(id);
            if (norm != null) {
                line(page, "Norm:        ", norm.text(java.util.OptionalDouble.empty()) + " [" + NORM + id + "]");
                keys.addAll(norm.sources());
            }
        }
        line(page, "Basis:       ", basis(factor.basis(), factor.note()));
        List<EvidenceStatement> read = knowledge.factorEvidence().stream()
                .filter(statement -> statement.factor().equals(factor.id()))
                .toList();
        if (!read.isEmpty()) {
            page.line("Read on it:");
            for (EvidenceStatement statement : read) {
                keys.addAll(statement.sources());
                page.hanging(
                        "  - ",
                        statement.says()
                                + (statement.population().isEmpty() ? "" : " (" + statement.population() + ")") + " ["
                                + statement.id() + ", " + statement.basis().word() + "]");
            }
        }
        sources(page, keys);
        return page.toString();
    }

    private static String beyond(FactorDefinition factor, double beyond) {
        String amount = (Plain.number(beyond) + " " + factor.unit()).strip();
        String way =
                switch (factor.direction()) {
                    case LOWER -> "lower";
                    case HIGHER -> "higher";
                    case EITHER -> "either way";
                };
        return switch (factor.method()) {
            case SYMMETRY -> "painful side weaker by more than " + amount + " of the other";
            case SIDE_DIFFERENCE, PAIRED_LENGTH, DESCRIBED, PATTERN ->
                "sides more than " + amount + " apart, " + way + " on the painful side";
            default -> (factor.direction() == FactorDefinition.Direction.LOWER ? "below " : "above ") + amount;
        };
    }

    private String norm(Norm norm) {
        Page page = new Page().heading("Norm " + norm.id());
        page.hanging("", norm.text(java.util.OptionalDouble.empty()));
        line(page, "Measure: ", norm.measure());
        line(page, "Taken:   ", norm.setUp().toString().replace("{", "").replace("}", ""));
        line(page, "Used:    ", norm.compared() ? "values are held against it" : "kept for the record only");
        line(page, "Basis:   ", basis(norm.basis(), norm.note()));
        sources(page, new LinkedHashSet<>(norm.sources()));
        return page.toString();
    }

    private String error(ErrorRow row) {
        Page page = new Page().heading("Error of measurement " + row.id());
        line(page, "Measure: ", row.measure());
        line(page, "Method:  ", row.method());
        line(page, "Of:      ", Words.plain(row.about()));
        line(page, "Repeats: ", row.reliability());
        line(page, "Among:   ", row.population());
        line(page, "Basis:   ", basis(row.basis(), row.note()));
        sources(page, new LinkedHashSet<>(row.sources()));
        return page.toString();
    }

    private static String basis(Basis basis, String note) {
        return basis.word() + (note.isEmpty() ? "" : ". " + note);
    }

    private static void line(Page page, String label, String text) {
        if (!text.isEmpty()) {
            page.hanging(label, text);
        }
    }

    private void sources(Page page, Set<String> keys) {
        if (keys.isEmpty()) {
            return;
        }
        page.line("Sources:");
        for (String key : keys) {
            Source source = knowledge.bibliography().get(key);
            page.hanging("  " + key + ": ", 4, source == null ? "not in the bibliography" : source.citation());
        }
    }
}
