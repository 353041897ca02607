package org.gerdy.cli;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.ReferralRow;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.knowledge.ScoreDefinition;
import org.gerdy.engine.knowledge.Source;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Everything in a knowledge base, listed by kind and shown in full by id. */
final class Cards {
    static final List<String> KINDS = List.of(
            "rules", "flags", "conditions", "findings", "referrals", "scores", "factors", "measures", "sources");

    private final KnowledgeBase knowledge;

    Cards(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** One line for each thing of a kind. */
    Optional<List<String>> list(String kind) {
        return switch (kind) {
            case "rules" ->
                Optional.of(knowledge.rules().values().stream()
                        .map(rule -> rule.id() + ": " + rule.name())
                        .toList());
            case "flags" ->
                Optional.of(knowledge.rowsByFlag().entrySet().stream()
                        .map(entry ->
                                entry.getKey() + ": " + entry.getValue().get(0).label() + " ("
                                        + entry.getValue().stream()
                                                .map(row -> row.urgency().word())
                                                .distinct()
                                                .collect(Collectors.joining(", "))
                                        + ")")
                        .toList());
            case "conditions" ->
                Optional.of(knowledge.conditions().values().stream()
                        .map(condition -> condition.id() + ": " + condition.name() + " (" + condition.disposition()
                                + (condition.mustNotMiss() ? ", must not be missed" : "") + ")")
                        .toList());
            case "findings" ->
                Optional.of(knowledge.catalogue().findings().stream()
                        .map(finding -> finding.id() + ": " + finding.question())
                        .toList());
            case "referrals" ->
                Optional.of(knowledge.referrals().values().stream()
                        .map(row -> row.id() + ": " + row.label() + " ("
                                + row.urgency().word() + ")")
                        .toList());
            case "scores" ->
                Optional.of(knowledge.scores().stream()
                        .map(score -> score.id() + ": " + score.label())
                        .toList());
            case "factors" ->
                Optional.of(knowledge.factors().factors().stream()
                        .map(factor -> factor.id() + ": " + factor.label() + " (" + factor.domain() + "; tie: "
                                + Words.plain(factor.tie().word()) + ")")
                        .toList());
            case "measures" ->
                Optional.of(knowledge.factors().measures().values().stream()
                        .map(measure -> measure.id() + ": " + MeasurePages.line(measure))
                        .toList());
            case "sources" ->
                Optional.of(knowledge.bibliography().values().stream()
                        .map(source -> source.key() + ": " + source.citation())
                        .toList());
            default -> Optional.empty();
        };
    }

    /** The card of an id, whatever it names. */
    Optional<String> card(String id) {
        List<String> cards = new ArrayList<>();
        Optional.ofNullable(knowledge.rules().get(id)).ifPresent(rule -> cards.add(rule(rule)));
        Optional.ofNullable(knowledge.rowsByFlag().get(id)).ifPresent(rows -> cards.add(flag(id, rows)));
        Optional.ofNullable(knowledge.conditions().get(id)).ifPresent(condition -> cards.add(condition(condition)));
        Optional.ofNullable(knowledge.referrals().get(id)).ifPresent(row -> cards.add(referral(row)));
        knowledge.catalogue().finding(id).ifPresent(finding -> cards.add(finding(finding)));
        knowledge.catalogue().computed(id).ifPresent(finding -> cards.add(computed(finding)));
        knowledge.scores().stream().filter(score -> score.id().equals(id)).forEach(score -> cards.add(score(score)));
        FactorCards factors = new FactorCards(knowledge);
        factors.measure(id).ifPresent(cards::add);
        factors.factor(id).ifPresent(cards::add);
        if (cards.isEmpty()) {
            Optional.ofNullable(knowledge.bibliography().get(id)).ifPresent(source -> cards.add(source(source)));
        }
        return cards.isEmpty() ? Optional.empty() : Optional.of(String.join("\n", cards));
    }

    /** The card of one kind, where an id names things of several. */
    Optional<String> only(String kind, String id) {
        return switch (kind) {
            case "flags" -> Optional.ofNullable(knowledge.rowsByFlag().get(id)).map(rows -> flag(id, rows));
            case "conditions" ->
                Optional.ofNullable(knowledge.conditions().get(id)).map(this::condition);
            case "findings" -> knowledge.catalogue().finding(id).map(this::finding);
            case "referrals" ->
                Optional.ofNullable(knowledge.referrals().get(id)).map(this::referral);
            case "factors" -> new FactorCards(knowledge).factor(id);
            case "measures" -> new FactorCards(knowledge).measure(id);
            case "sources" ->
                Optional.ofNullable(knowledge.bibliography().get(id)).map(Cards::source);
            case "scores" ->
                knowledge.scores().stream()
                        .filter(score -> score.id().equals(id))
                        .findFirst()
                        .map(this::score);
            default -> Optional.empty();
        };
    }

    /** What to say of an id nothing answers to. */
    String unknown(String id) {
        Set<String> known = new TreeSet<>(knowledge.rules().keySet());
        known.addAll(knowledge.rowsByFlag().keySet());
        known.addAll(knowledge.conditions().keySet());
        known.addAll(knowledge.referrals().keySet());
        knowledge.catalogue().findings().forEach(finding -> known.add(finding.id()));
        known.addAll(knowledge.factors().measures().keySet());
        knowledge.factors().factors().forEach(factor -> known.add(factor.id()));
        known.addAll(knowledge.bibliography().keySet());
        return "There is nothing called '" + id + "'; "
                + Catalogue.nearest(id, known)
                        .map(nearest -> "did you mean '" + nearest + "'?")
                        .orElse("'gerdy rules list' shows the rules, 'gerdy rules list flags' the red flags.");
    }

    private String rule(RuleCard rule) {
        Page page = new Page().heading("Rule " + rule.id());
        page.hanging("", rule.name() + ".");
        page.hanging("Because: ", rule.because() + ".");
        page.line("Basis:   " + rule.basis().word());
        if (!rule.row().isEmpty()) {
            page.hanging("Serves:  ", rule.row());
        }
        page.line("File:    " + rule.file() + ", line " + rule.line());
        page.blank();
        rule.text().lines().forEach(page::line);
        List<String> computed = rule.reads().stream()
                .flatMap(read -> knowledge.catalogue().computed(read).stream())
                .map(finding -> finding.id() + ": " + finding.label() + "; " + finding.means())
                .toList();
        if (!computed.isEmpty()) {
            page.blank().line("Where:");
            computed.forEach(line -> page.hanging("  ", 4, line));
        }
        sources(page, rule.sources());
        return page.toString();
    }

    private String flag(String id, List<RedFlagRow> rows) {
        Page page = new Page().heading("Red flag " + id);
        Set<String> keys = new LinkedHashSet<>();
        for (RedFlagRow row : rows) {
            keys.addAll(row.sources());
            page.hanging("* ", row.label() + ": " + row.urgency().word() + " (" + row.within() + ")");
            page.line("  Row:          " + row.id());
            row.appliesIf().ifPresent(gate -> page.hanging("  Applies if:   ", gate.toString()));
            page.hanging("  Raised when:  ", row.raisedWhen().toString());
            row.trigger().ifPresent(trigger -> page.hanging("  Entry:        ", trigger.toString()));
            if (!row.needs().isEmpty()) {
                page.hanging("  Needs:        ", String.join(", ", row.needs()));
            }
            page.hanging("  Do:           ", row.action());
            page.hanging("  Why:          ", row.rationale());
            page.hanging(
                    "  Basis:        ",
                    row.basis().word() + (row.sources().isEmpty() ? "" : ": " + String.join(", ", row.sources())));
            if (!row.note().isEmpty()) {
                page.hanging("  Note:         ", row.note());
            }
            String rules = knowledge.rules().values().stream()
                    .filter(rule -> rule.row().equals(row.id()))
                    .map(RuleCard::id)
                    .collect(Collectors.joining(", "));
            page.hanging("  Rules:        ", rules);
        }
        sources(page, keys);
        return page.toString();
    }

    private String condition(Condition condition) {
        Page page = new Page().heading(condition.name());
        page.hanging("Id:            ", condition.id());
        labelled(page, "Structure:     ", condition.structure());
        labelled(page, "Who:           ", condition.who());
        labelled(page, "Age:           ", condition.age());
        labelled(page, "Onset:         ", condition.onset());
        labelled(page, "Gives it away: ", condition.givesAway());
        labelled(page, "Settled by:    ", condition.settledBy());
        labelled(
                page,
                "Disposition:   ",
                condition.disposition() + (condition.mustNotMiss() ? "; must not be missed" : ""));
        labelled(page, "Red flags:     ", String.join(", ", condition.flags()));
        if (!condition.codeUnspecified().isEmpty()) {
            labelled(
                    page,
                    "ICD-10-CM:     ",
                    "right " + condition.codeRight() + ", left " + condition.codeLeft() + ", side not given "
                            + condition.codeUnspecified() + " (" + condition.codeBasis() + ")");
        }
        if (!condition.lookAlikes().isEmpty()) {
            page.line("Look-alikes:");
            condition
                    .lookAlikes()
                    .forEach(other -> page.hanging(
                            "  - ", knowledge.condition(other.condition()).name() + ": " + other.separatedBy()));
        }
        Set<String> keys = new LinkedHashSet<>(condition.sources());
        List<EvidenceRow> rows = knowledge.evidence().about(condition.id());
        if (!rows.isEmpty()) {
            page.line("Evidence:");
            for (EvidenceRow row : rows) {
                keys.addAll(row.sources());
                page.hanging("  - ", evidence(row));
            }
        }
        labelled(page, "Note:          ", condition.note());
        sources(page, keys);
        return page.toString();
    }

    private static String evidence(EvidenceRow row) {
        return row.finding()
                + row.whenPresent().map(ratio -> ": present LR " + shown(ratio)).orElse(": present no weight")
                + row.whenAbsent().map(ratio -> ", absent LR " + shown(ratio)).orElse("")
                + "; " + row.basis().word()
                + (row.cluster().isEmpty() ? "" : "; counts once with " + row.cluster());
    }

    private static String shown(EvidenceRow.Ratio ratio) {
        return Words.ratio(ratio.value()) + " (" + Words.ratio(ratio.low()) + " to " + Words.ratio(ratio.high()) + ")";
    }

    private String referral(ReferralRow row) {
        Page page = new Page().heading("Referral threshold " + row.id());
        page.hanging("", row.label() + ": " + row.urgency().word() + " (" + row.within() + ")");
        page.hanging("Do: ", 4, row.action());
        sources(page, row.sources());
        return page.toString();
    }

    private String finding(FindingDefinition finding) {
        Page page = new Page().heading("Finding " + finding.id());
        page.hanging("", finding.question());
        labelled(page, "How:        ", finding.technique());
        labelled(
                page,
                "Answer:     ",
                switch (finding.kind()) {
                    case YES_NO -> "present, absent or unable";
                    case CHOICE -> String.join(", ", finding.choices());
                    case DATE -> "a day";
                    case SCALE_0_10 -> "0 to 10";
                    case NUMBER, DURATION ->
                        "a number in " + finding.unit() + ", "
                                + Words.number(finding.min().orElse(0)) + " to "
                                + Words.number(finding.max().orElse(0));
                });
        labelled(page, "Side:       ", finding.perSide() ? "one answer a side" : "about the person");
        finding.onlyIf().ifPresent(gate -> labelled(page, "Only if:    ", gate.toString()));
        labelled(page, "Equipment:  ", finding.equipment());
        labelled(page, "Time:       ", "about " + finding.seconds() + " seconds");
        if (finding.provocative()) {
            labelled(page, "Hold back:  ", "while a fracture, clot, infection or bone stress flag is raised or open");
        }
        labelled(page, "Note:       ", finding.note());
        usedBy(page, finding.id());
        return page.toString();
    }

    private String computed(ComputedFinding finding) {
        Page page = new Page().heading("Computed finding " + finding.id());
        page.hanging("", finding.label());
        page.hanging("Means: ", finding.means().toString());
        page.line("Basis: " + finding.basis().word());
        usedBy(page, finding.id());
        sources(page, finding.sources());
        return page.toString();
    }

    private void usedBy(Page page, String finding) {
        String rules = knowledge.rules().values().stream()
                .filter(rule -> rule.reads().stream()
                        .anyMatch(read -> read.equals(finding)
                                || knowledge.catalogue().askedBehind(read).contains(finding)))
                .map(RuleCard::id)
                .collect(Collectors.joining(", "));
        String rows = knowledge.evidence().rows().stream()
                .filter(row -> row.finding().equals(finding)
                        || knowledge.catalogue().askedBehind(row.finding()).contains(finding))
                .map(EvidenceRow::condition)
                .distinct()
                .collect(Collectors.joining(", "));
        labelled(page, "Rules:      ", rules);
        labelled(page, "Speaks of:  ", rows);
    }

    private String score(ScoreDefinition score) {
        Page page = new Page().heading("Score " + score.id());
        page.hanging("", score.label());
        for (int i = 0; i < score.points().items().size(); i++) {
            page.hanging(
                    "  - ",
                    Words.number(score.points().items().get(i).points()) + ": "
                            + score.itemLabels().get(i));
        }
        score.bands().forEach(band -> page.line("  " + band.name() + ": " + Words.range(band.low(), band.high())));
        score.excludedIf().ifPresent(gate -> page.hanging("Not applicable if: ", gate.toString()));
        labelled(page, "Note: ", score.note());
        sources(page, score.sources());
        return page.toString();
    }

    private static String source(Source source) {
        Page page = new Page().heading("Source " + source.key());
        page.hanging("", source.citation());
        labelled(page, "Kind:  ", source.kind());
        labelled(page, "Basis: ", source.basis());
        labelled(page, "Note:  ", source.note());
        return page.toString();
    }

    private static void labelled(Page page, String label, String text) {
        if (!text.isEmpty()) {
            page.hanging(label, text);
        }
    }

    private void sources(Page page, Iterable<String> keys) {
        boolean first = true;
        for (String key : keys) {
            if (first) {
                page.line("Sources:");
                first = false;
            }
            Source source = knowledge.bibliography().get(key);
            page.hanging("  " + key + ": ", 4, source == null ? "not in the bibliography" : source.citation());
        }
    }
}
