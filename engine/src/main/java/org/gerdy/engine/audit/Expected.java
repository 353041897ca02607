package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.ReferralResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.vocabulary.Urgency;

/** Holds an assessment against what its case expects. */
public final class Expected {
    private final Assessment assessment;
    private final List<Difference> differences = new ArrayList<>();

    private Expected(Assessment assessment) {
        this.assessment = assessment;
    }

    /** Everything that differs; empty when the case gets what it expects. */
    public static List<Difference> differences(CaseFile.Expectation expect, Assessment assessment) {
        Expected held = new Expected(assessment);
        held.urgency(expect);
        held.flags(expect);
        held.rows(expect);
        held.candidates(expect);
        held.detail(expect.detail());
        held.instruments(expect.detail());
        return List.copyOf(held.differences);
    }

    /** What differs between the plan and what a case asks of it. */
    static List<Difference> ofPlan(CaseFile.Care care, Plan plan) {
        List<String> given = plan instanceof Plan.Active active
                ? active.items().stream().map(chosen -> chosen.item().id()).toList()
                : List.of();
        String found = plan instanceof Plan.Active ? String.join(", ", given) : "interim advice only";
        List<Difference> differences = new ArrayList<>();
        care.plan().stream()
                .filter(item -> !given.contains(item))
                .forEach(item -> differences.add(new Difference("plan", item, found)));
        care.notPlan().stream()
                .filter(given::contains)
                .forEach(item -> differences.add(new Difference("not-plan", "not " + item, item)));
        return differences;
    }

    /** The word for an urgency that may be missing because the screen is incomplete. */
    public static String word(Optional<Urgency> urgency) {
        return urgency.map(Urgency::word).orElse("none, screening incomplete");
    }

    private void differs(String what, String expected, String found) {
        differences.add(new Difference(what, expected, found));
    }

    private void urgency(CaseFile.Expectation expect) {
        Optional<Urgency> found = assessment.urgency();
        expect.urgency()
                .filter(level -> !found.equals(Optional.of(level)))
                .ifPresent(level -> differs("urgency", level.word(), word(found)));
        expect.atLeast()
                // Nothing is lower than the lowest level, a screening that is not complete least of all.
                .filter(level -> level != Urgency.MANAGE_HERE)
                .filter(level -> found.isEmpty() || found.get().compareTo(level) < 0)
                .ifPresent(level -> differs("urgency", "at least " + level.word(), word(found)));
        found.filter(expect.never()::contains)
                .ifPresent(level -> differs("never", "not " + level.word(), level.word()));
    }

    private void flags(CaseFile.Expectation expect) {
        flags("raised", expect.raised(), flag -> flag.state() == FlagState.RAISED);
        flags("not-raised", expect.notRaised(), flag -> flag.state() != FlagState.RAISED);
        flags("cleared", expect.cleared(), flag -> flag.state() == FlagState.CLEARED);
        flags("open", expect.open(), Flag::open);
    }

    private void flags(String what, List<String> ids, Predicate<Flag> holds) {
        for (String id : ids) {
            Flag flag = assessment.flag(id);
            if (!holds.test(flag)) {
                differs(what, id, id + " " + flag.state().word());
            }
        }
    }

    private void rows(CaseFile.Expectation expect) {
        rows("rows-raised", expect.rowsRaised(), row -> row.state() == FlagState.RAISED);
        rows("rows-not-raised", expect.rowsNotRaised(), row -> row.state() != FlagState.RAISED);
        rows("rows-open", expect.detail().rowsOpen(), row -> row.state() == FlagState.OPEN);
        rows(
                "rows-cleared",
                expect.detail().rowsCleared(),
                row -> row.state() != FlagState.RAISED && row.state() != FlagState.OPEN);
        expect.detail().rowUrgency().forEach((id, level) -> {
            Flag.Row row = row(id);
            if (row.state() != FlagState.RAISED || row.urgency() != level) {
                differs(
                        "row-urgency",
                        id + " raised at " + level.word(),
                        row.state().word() + " at " + row.urgency().word());
            }
        });
    }

    private void rows(String what, List<String> ids, Predicate<Flag.Row> holds) {
        for (String id : ids) {
            Flag.Row row = row(id);
            if (!holds.test(row)) {
                differs(what, id, id + " " + row.state().word());
            }
        }
    }

    private Flag.Row row(String id) {
        return assessment.flags().stream()
                .flatMap(flag -> flag.rows().stream())
                .filter(row -> row.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("There is no red flag row '" + id + "'."));
    }

    private void candidates(CaseFile.Expectation expect) {
        List<String> order =
                assessment.candidates().stream().map(CandidateResult::condition).toList();
        List<String> leading = assessment.candidates(CandidateResult.Standing.LEADING).stream()
                .map(CandidateResult::condition)
                .toList();
        expect.leading()
                .filter(condition -> !leading.contains(condition))
                .ifPresent(condition -> differs("leading", condition, String.join(", ", leading)));
        expect.within().forEach((condition, rank) -> {
            int found = order.indexOf(condition) + 1;
            if (found == 0 || found > rank) {
                differs(
                        "within",
                        condition + " within first " + rank,
                        found == 0 ? "not a candidate" : "place " + found + " after " + order.get(0));
            }
        });
    }

    private void detail(CaseFile.Detail detail) {
        detail.population()
                .filter(id -> !assessment.population().id().equals(id))
                .ifPresent(
                        id -> differs("population", id, assessment.population().id()));
        List<String> met = assessment.referrals().stream()
                .map(ReferralResult::id)
                .distinct()
                .toList();
        for (String id : detail.referrals()) {
            // "id", or "id at level".
            String[] parts = id.split(" at ", 2);
            boolean there = assessment.referrals().stream()
                    .anyMatch(referral -> referral.id().equals(parts[0])
                            && (parts.length == 1 || referral.urgency().word().equals(parts[1])));
            if (!there) {
                differs("referrals", id, met.isEmpty() ? "none" : String.join(", ", met));
            }
        }
        for (String id : detail.notReferrals()) {
            if (met.contains(id)) {
                differs("not-referrals", "not " + id, id);
            }
        }
        CaseFile.Weights weights = detail.weights();
        speaks("speaks-for", weights.speaksFor(), true, true);
        speaks("speaks-against", weights.speaksAgainst(), false, true);
        speaks("not-speaks-for", weights.notSpeaksFor(), true, false);
        speaks("not-speaks-against", weights.notSpeaksAgainst(), false, false);
        assessment.candidates(CandidateResult.Standing.UNLIKELY).stream()
                .map(CandidateResult::condition)
                .filter(weights.notUnlikely()::contains)
                .forEach(id -> differs("not-unlikely", id + " not unlikely", id + " unlikely"));
    }

    private void instruments(CaseFile.Detail detail) {
        said("scores", detail.scores(), Conclusions.scores(assessment), "none");
        said("decision-rules", detail.decisionRules(), Conclusions.decisionRules(assessment), "none");
        Map<String, String> verdicts = new LinkedHashMap<>();
        detail.care().factors().forEach((id, verdict) -> verdicts.put(id, verdict.word()));
        said("factors", verdicts, Conclusions.factors(assessment), FactorVerdict.NOT_MEASURED.word());
    }

    private void said(String what, Map<String, String> expected, Map<String, String> found, String otherwise) {
        expected.forEach((id, word) -> {
            String is = found.getOrDefault(id, otherwise);
            if (!is.equals(word)) {
                differs(what, id + " " + word, id + " " + is);
            }
        });
    }

    private void speaks(String what, Map<String, List<String>> expected, boolean supporting, boolean must) {
        expected.forEach((condition, findings) -> {
            Set<String> weighing = assessment.candidates().stream()
                    .filter(candidate -> candidate.condition().equals(condition))
                    .flatMap(candidate -> (supporting ? candidate.supporting() : candidate.opposing()).stream())
                    .map(CandidateResult.Weight::finding)
                    .collect(Collectors.toSet());
            String does = supporting ? "support" : "oppose";
            for (String finding : findings) {
                if (weighing.contains(finding) != must) {
                    differs(what, finding + " for " + condition, must ? "it does not " + does : "it does " + does);
                }
            }
        });
    }
}
