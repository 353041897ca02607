package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.measure.FactorVerdict;

/** What a case has to expect so that it tells one assessment from another. */
final class Tells {
    private Tells() {}

    /** What a case must expect to notice that the second is not the first. */
    static Map<String, List<String>> expect(Assessment now, Assessment slipped) {
        Map<String, List<String>> expect = new LinkedHashMap<>();
        Map<String, String> said = Conclusions.of(now);
        Map<String, String> other = Conclusions.of(slipped);
        now.flags().stream().flatMap(flag -> flag.rows().stream()).forEach(row -> {
            String name = "row " + row.id();
            String here = word(said.getOrDefault(name, ""));
            if (!here.equals(word(other.getOrDefault(name, "")))) {
                switch (row.state()) {
                    case RAISED ->
                        put(
                                expect,
                                "row-urgency",
                                row.id() + "=" + row.urgency().word());
                    case OPEN -> put(expect, "rows-open", row.id());
                    case CLEARED, NOT_APPLICABLE, NOT_TRIGGERED -> {
                        if (other.getOrDefault(name, "").startsWith("raised")
                                || other.getOrDefault(name, "").startsWith("open")) {
                            put(expect, "rows-cleared", row.id());
                        }
                    }
                }
            }
        });
        if (!now.population().id().equals(slipped.population().id())) {
            put(expect, "population", now.population().id());
        }
        List<String> met = referrals(now);
        List<String> otherMet = referrals(slipped);
        met.stream().filter(id -> !otherMet.contains(id)).forEach(id -> put(expect, "referrals", id));
        List<String> ids = met.stream().map(id -> id.split(" at ", 2)[0]).toList();
        otherMet.stream()
                .map(id -> id.split(" at ", 2)[0])
                .filter(id -> !ids.contains(id))
                .forEach(id -> put(expect, "not-referrals", id));
        speaks(expect, now, slipped);
        said(expect, "scores", Conclusions.scores(now), Conclusions.scores(slipped), "none");
        said(expect, "decision-rules", Conclusions.decisionRules(now), Conclusions.decisionRules(slipped), "none");
        said(
                expect,
                "factors",
                Conclusions.factors(now),
                Conclusions.factors(slipped),
                FactorVerdict.NOT_MEASURED.word());
        List<String> unlikely = unlikely(now);
        unlikely(slipped).stream().filter(id -> !unlikely.contains(id)).forEach(id -> put(expect, "not-unlikely", id));
        List<String> leading = leading(slipped);
        if (expect.isEmpty()) {
            leading(now).stream()
                    .filter(id -> !leading.contains(id))
                    .findFirst()
                    .ifPresent(id -> put(expect, "leading", id));
        }
        return expect;
    }

    private static String word(String said) {
        return said.startsWith("open") ? "open" : said.startsWith("not-") ? "cleared" : said;
    }

    private static List<String> leading(Assessment assessment) {
        return assessment.candidates(CandidateResult.Standing.LEADING).stream()
                .map(CandidateResult::condition)
                .toList();
    }

    private static List<String> unlikely(Assessment assessment) {
        return assessment.candidates(CandidateResult.Standing.UNLIKELY).stream()
                .filter(CandidateResult::mustNotMiss)
                .map(CandidateResult::condition)
                .toList();
    }

    private static void said(
            Map<String, List<String>> expect,
            String field,
            Map<String, String> now,
            Map<String, String> slipped,
            String otherwise) {
        Stream.concat(now.keySet().stream(), slipped.keySet().stream())
                .distinct()
                .filter(id -> !now.getOrDefault(id, otherwise).equals(slipped.getOrDefault(id, otherwise)))
                .forEach(id -> put(expect, field, id + "=" + now.getOrDefault(id, otherwise)));
    }

    private static List<String> referrals(Assessment assessment) {
        return assessment.referrals().stream()
                .map(referral -> referral.id() + " at " + referral.urgency().word())
                .distinct()
                .toList();
    }

    private static void speaks(Map<String, List<String>> expect, Assessment now, Assessment slipped) {
        Set<String> other = spoken(slipped);
        for (String one : spoken(now)) {
            if (!other.contains(one)) {
                String[] parts = one.split(" ", 3);
                put(expect, parts[0], parts[1] + "=" + parts[2]);
            }
        }
    }

    static Set<String> spoken(Assessment assessment) {
        Set<String> spoken = new LinkedHashSet<>();
        for (CandidateResult candidate : assessment.candidates()) {
            candidate.supporting().stream()
                    .filter(weight -> weight.ratio() != 1)
                    .forEach(weight -> spoken.add("speaks-for " + candidate.condition() + " " + weight.finding()));
            candidate
                    .opposing()
                    .forEach(weight -> spoken.add("speaks-against " + candidate.condition() + " " + weight.finding()));
        }
        return spoken;
    }

    /** Every finding that weighs in the differential, either way, as condition and finding. */
    static Set<String> weighed(Assessment assessment) {
        Set<String> weighed = new HashSet<>();
        for (CandidateResult candidate : assessment.candidates()) {
            candidate.supporting().forEach(weight -> weighed.add(candidate.condition() + " " + weight.finding()));
            candidate.opposing().forEach(weight -> weighed.add(candidate.condition() + " " + weight.finding()));
        }
        return weighed;
    }

    static void put(Map<String, List<String>> expect, String field, String value) {
        expect.computeIfAbsent(field, ignored -> new ArrayList<>()).add(value);
    }
}
