package org.gerdy.cli;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.assessment.ReferralResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.knowledge.Source;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.vocabulary.Catalogue;

/** The reasons behind an assessment, one conclusion at a time. */
final class Explanation {
    private final KnowledgeBase knowledge;
    private final Assessment assessment;
    private final Observations observations;
    private final Words words;

    Explanation(KnowledgeBase knowledge, Assessment assessment, Observations observations) {
        this.knowledge = knowledge;
        this.assessment = assessment;
        this.observations = observations;
        this.words = new Words(knowledge);
    }

    /** Every raised and open flag, every leading candidate, every threshold met. */
    String all() {
        List<String> parts = new ArrayList<>();
        assessment.raisedFlags().forEach(flag -> parts.add(flag(flag)));
        assessment.openFlags().stream()
                .filter(flag -> flag.state() == FlagState.OPEN)
                .forEach(flag -> parts.add(flag(flag)));
        assessment.candidates(Standing.LEADING).forEach(candidate -> parts.add(candidate(candidate)));
        assessment.referrals().forEach(referral -> parts.add(referral(referral)));
        assessment.factors().stream()
                .filter(factor -> factor.verdict().compareTo(FactorVerdict.BORDERLINE) >= 0)
                .forEach(factor -> parts.add(factor(factor)));
        return String.join("\n", parts);
    }

    /** One conclusion by id, if there is such a thing. */
    Optional<String> of(String id) {
        // A red flag and a condition may bear the same name; then both are meant.
        List<String> parts = new ArrayList<>();
        assessment.flags().stream().filter(one -> one.id().equals(id)).forEach(one -> parts.add(flag(one)));
        assessment.candidates().stream()
                .filter(one -> one.condition().equals(id))
                .forEach(one -> parts.add(candidate(one)));
        if (!parts.isEmpty()) {
            return Optional.of(String.join("\n", parts));
        }
        for (Flag one : assessment.flags()) {
            for (Flag.Row row : one.rows()) {
                if (row.id().equals(id)) {
                    Page page = new Page().heading(row.id());
                    row(page, row);
                    sources(page, keys(row));
                    return Optional.of(page.toString());
                }
            }
        }
        Optional<String> candidate = assessment.candidates().stream()
                .filter(one -> one.condition().equals(id))
                .findFirst()
                .map(this::candidate);
        if (candidate.isPresent()) {
            return candidate;
        }
        if (knowledge.referrals().containsKey(id)) {
            return Optional.of(assessment.referrals().stream()
                    .filter(one -> one.id().equals(id))
                    .findFirst()
                    .map(this::referral)
                    .orElseGet(() -> "The referral threshold '" + id + "' is not met: none of its rules fired.\n"));
        }
        String factor = id.startsWith(FactorCards.FACTOR) ? id.substring(FactorCards.FACTOR.length()) : id;
        Optional<FactorResult> result = assessment.factors().stream()
                .filter(one -> one.id().equals(factor))
                .findFirst();
        return result.isPresent() ? Optional.of(factor(result.get())) : new FactorCards(knowledge).row(id);
    }

    /** What to say of an id nothing answers to. */
    String unknown(String id) {
        Set<String> known = new TreeSet<>(knowledge.rowsByFlag().keySet());
        known.addAll(knowledge.conditions().keySet());
        known.addAll(knowledge.referrals().keySet());
        assessment.factors().forEach(factor -> known.add(factor.id()));
        if (knowledge.conditions().containsKey(id)) {
            return "'" + id + "' cannot be in this patient: age or sex rules it out; its card says how.";
        }
        return "There is no conclusion '" + id + "'; "
                + Catalogue.nearest(id, known)
                        .map(nearest -> "did you mean '" + nearest + "'?")
                        .orElse("'gerdy rules list' shows red flags and conditions.");
    }

    private String flag(Flag flag) {
        String state = flag.state().word()
                + flag.urgency().map(urgency -> ", " + urgency.word()).orElse("")
                + (flag.open() && flag.state() == FlagState.RAISED
                        ? "; still open to "
                                + flag.couldBecome()
                                        .map(urgency -> urgency.word())
                                        .orElse("more")
                        : "");
        Page page = new Page().heading("Red flag " + flag.id() + ": " + state);
        Set<String> keys = new LinkedHashSet<>();
        for (Flag.Row row : flag.rows()) {
            row(page, row);
            keys.addAll(keys(row));
        }
        sources(page, keys);
        return page.toString();
    }

    private void row(Page page, Flag.Row row) {
        RedFlagRow definition = knowledge.redFlags().stream()
                .filter(one -> one.id().equals(row.id()))
                .findFirst()
                .orElseThrow();
        page.hanging(
                "* ",
                row.id() + " (" + row.urgency().word() + ", " + row.within() + "): "
                        + row.state().word());
        switch (row.state()) {
            case RAISED -> {
                page.hanging("  Do: ", 4, row.action());
                row.reasons().forEach(reason -> reason(page, reason));
            }
            case NOT_APPLICABLE ->
                page.hanging(
                        "  ",
                        "Applies only if " + definition.appliesIf().orElseThrow()
                                + "; that does not hold here. Not applicable is never a negative. "
                                + read(definition
                                        .appliesIf()
                                        .map(knowledge.catalogue()::askedBehind)
                                        .orElseThrow()));
            case NOT_TRIGGERED ->
                page.hanging(
                        "  ",
                        "Its entry question does not hold: "
                                + definition.trigger().orElseThrow() + ". "
                                + read(definition
                                        .trigger()
                                        .map(knowledge.catalogue()::askedBehind)
                                        .orElseThrow()));
            case OPEN -> {
                page.hanging("  ", "Open. Still to ask:");
                row.ask().forEach(ask -> page.hanging("    - ", words.finding(ask) + " [" + ask + "]"));
            }
            case CLEARED -> {
                page.hanging(
                        "  ",
                        definition.needs().isEmpty()
                                ? "It raises when its sign is recorded; nothing recorded raises it."
                                : "Everything it needs was asked and nothing raised it.");
                Set<String> asked = new LinkedHashSet<>();
                definition
                        .needs()
                        .forEach(need -> asked.addAll(knowledge.catalogue().askedBehind(need)));
                if (!asked.isEmpty()) {
                    page.hanging("  ", read(asked));
                }
            }
        }
    }

    private String read(Set<String> asked) {
        return String.join(
                "; ",
                asked.stream().map(id -> id + ": " + observations.shown(id)).toList());
    }

    private static Set<String> keys(Flag.Row row) {
        Set<String> keys = new LinkedHashSet<>();
        row.reasons().forEach(reason -> keys.addAll(reason.sources()));
        return keys;
    }

    private void reason(Page page, Reason reason) {
        RuleCard rule = knowledge.rule(reason.rule());
        page.hanging("  Rule " + rule.id() + ": ", 4, "\"" + rule.name() + "\"");
        page.hanging("    ", reason.because() + " (" + reason.basis().word() + ").");
        reason.findings().forEach(read -> page.hanging("    - ", read.id() + ": " + read.value()));
    }

    private String candidate(CandidateResult candidate) {
        Page page = new Page()
                .heading("Candidate " + candidate.condition() + ": "
                        + candidate.standing().word());
        page.hanging(
                "",
                candidate.name() + ", share " + Words.percent(candidate.share()) + " (" + Words.percent(candidate.low())
                        + " to " + Words.percent(candidate.high()) + ") of all candidates, starting from the list for: "
                        + assessment.population().label() + " ("
                        + assessment.population().reason().because() + ").");
        Set<String> keys = new LinkedHashSet<>();
        weights(page, "For", candidate.supporting(), keys);
        weights(page, "Against", candidate.opposing(), keys);
        if (!candidate.settle().isEmpty()) {
            page.line("Would settle it, best first:");
            candidate.settle().forEach(ask -> page.hanging("  - ", words.finding(ask) + " [" + ask + "]"));
        }
        page.hanging("", "Findings of one cluster count once. Shares order the candidates; they are not validated.");
        sources(page, keys);
        return page.toString();
    }

    private void weights(Page page, String title, List<CandidateResult.Weight> weights, Set<String> keys) {
        if (weights.isEmpty()) {
            return;
        }
        page.line(title + ":");
        for (CandidateResult.Weight weight : weights) {
            keys.addAll(weight.sources());
            page.hanging(
                    "  - ",
                    weight.finding() + " " + (weight.present() ? "present" : "absent") + ": likelihood ratio "
                            + Words.ratio(weight.ratio()) + " ("
                            + weight.basis().word()
                            + (weight.sources().isEmpty() ? "" : ", " + String.join(", ", weight.sources())) + ")"
                            + (weight.counted() ? "" : ", in a cluster with a stronger finding, not counted again"));
        }
    }

    private String referral(ReferralResult referral) {
        Page page = new Page().heading("Referral threshold " + referral.id() + ": met");
        page.hanging(
                "",
                referral.label() + " (" + referral.urgency().word() + ", " + referral.within() + "). "
                        + referral.action());
        Set<String> keys = new LinkedHashSet<>();
        for (Reason reason : referral.reasons()) {
            reason(page, reason);
            keys.addAll(reason.sources());
        }
        sources(page, keys);
        return page.toString();
    }

    private String factor(FactorResult factor) {
        Page page = new Page()
                .heading("Contributing factor " + factor.id() + ": "
                        + Words.plain(factor.verdict().word()));
        page.hanging("", factor.label() + (factor.seen().isEmpty() ? "" : ": " + factor.seen()) + ".");
        Set<String> keys = new LinkedHashSet<>();
        for (Reason reason : factor.reasons()) {
            page.hanging(
                    "- ",
                    reason.because() + " (" + reason.rule() + ", "
                            + reason.basis().word() + ")");
            reason.findings().forEach(read -> page.hanging("    - ", read.id() + ": " + read.value()));
            keys.addAll(reason.sources());
        }
        page.hanging("", "'gerdy rules card " + factor.id() + "' shows every study read on it.");
        sources(page, keys);
        return page.toString();
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
