package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.PlanEntry;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.ClinicianDecision;
import org.gerdy.engine.review.Instrument;
import org.gerdy.engine.review.Review;
import org.gerdy.engine.review.Reviewer;
import org.gerdy.engine.review.ScoreVisit;
import org.gerdy.engine.vocabulary.Urgency;

/** Reads the scores of a case for a review: the same side at every visit, what was not scored left out. */
final class ReviewReading {
    private final KnowledgeBase knowledge;
    private final CareTables tables;
    private final Reasoner reasoner;
    private final Reviewer reviewer;

    ReviewReading(KnowledgeBase knowledge, CareTables tables) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.reasoner = new Reasoner(knowledge);
        this.reviewer = new Reviewer(tables.review());
    }

    /** The review at the last of these visits; empty at a first visit. */
    Optional<Review> review(CaseFile caseFile, List<Visit> soFar, Assessment today) {
        if (soFar.size() < 2) {
            return Optional.empty();
        }
        Visit visit = soFar.get(soFar.size() - 1);
        Visit before = soFar.get(soFar.size() - 2);
        Observations observations = Observations.of(knowledge.terms(), caseFile, visit);
        Side side = side(caseFile, soFar);
        Review review = reviewer.review(
                scores(caseFile, soFar),
                new Reviewer.Today(
                        conditions(today),
                        observations,
                        redFlags(today, reasoner.assess(caseFile, before)),
                        tables.role(CareTables.ADHERENCE).stream()
                                .flatMap(id ->
                                        number(observations, id, side).stream().boxed())
                                .mapToDouble(Double::doubleValue)
                                .findFirst(),
                        visit.plan().map(PlanEntry::goalMet).orElse(Truth.UNKNOWN)));
        return Optional.of(visit.review()
                .map(said -> review.with(new ClinicianDecision(said.decision(), said.reason())))
                .orElse(review));
    }

    /** The totals at each of these visits, on one and the same side. */
    List<ScoreVisit> scores(CaseFile caseFile, List<Visit> visits) {
        Side side = side(caseFile, visits);
        return visits.stream().map(visit -> scores(caseFile, visit, side)).toList();
    }

    /** The flags that count as new or as a stop: those above routine referral, and those not raised last time. */
    private static Review.RedFlags redFlags(Assessment today, Assessment before) {
        Set<String> then = before.raisedFlags().stream().map(Flag::id).collect(Collectors.toSet());
        return new Review.RedFlags(
                today.screeningComplete(),
                today.raisedFlags().stream()
                        .filter(flag -> flag.urgency().orElseThrow().compareTo(Urgency.ROUTINE_REFERRAL) > 0
                                || !then.contains(flag.id()))
                        .map(Flag::id)
                        .toList());
    }

    private static List<String> conditions(Assessment today) {
        List<String> ids = new ArrayList<>();
        for (CandidateResult.Standing standing :
                List.of(CandidateResult.Standing.LEADING, CandidateResult.Standing.PLAUSIBLE)) {
            today.candidates(standing).forEach(candidate -> ids.add(candidate.condition()));
        }
        return ids;
    }

    private ScoreVisit scores(CaseFile caseFile, Visit visit, Side side) {
        Observations observations = Observations.of(knowledge.terms(), caseFile, visit);
        Map<String, Double> totals = new LinkedHashMap<>();
        Set<String> ids = new LinkedHashSet<>();
        tables.review().instruments().values().forEach(instrument -> ids.addAll(instrument.findings()));
        ids.forEach(id -> number(observations, id, side).ifPresent(total -> totals.put(id, total)));
        return new ScoreVisit(visit.date(), totals);
    }

    /** The side that hurt at every visit; where both did, the one with more pain at the first, left where equal. */
    private Side side(CaseFile caseFile, List<Visit> visits) {
        Set<Side> sides = EnumSet.of(Side.LEFT, Side.RIGHT);
        visits.forEach(visit -> sides.retainAll(visit.side().each()));
        if (sides.isEmpty()) {
            sides.addAll(visits.get(0).side().each());
        }
        Observations first = Observations.of(knowledge.terms(), caseFile, visits.get(0));
        boolean onlyRight = !sides.contains(Side.LEFT);
        boolean rightWorse = sides.contains(Side.RIGHT) && pain(first, Side.RIGHT) > pain(first, Side.LEFT);
        return onlyRight || rightWorse ? Side.RIGHT : Side.LEFT;
    }

    private double pain(Observations observations, Side side) {
        return tables.review().instruments().values().stream()
                .filter(instrument -> instrument.role() == Instrument.Role.PAIN)
                .flatMap(instrument -> instrument.findings().stream())
                .mapToDouble(id -> number(observations, id, side).orElse(0))
                .sum();
    }

    private static OptionalDouble number(Observations observations, String id, Side side) {
        return observations
                .recorded(id)
                .flatMap(recorded -> recorded.on(side))
                .filter(Answer.Quantity.class::isInstance)
                .map(answer -> OptionalDouble.of(((Answer.Quantity) answer).value()))
                .orElse(OptionalDouble.empty());
    }
}
