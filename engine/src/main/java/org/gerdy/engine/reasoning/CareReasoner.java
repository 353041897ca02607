package org.gerdy.engine.reasoning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.PlanEntry;
import org.gerdy.engine.casefile.RunEntry;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.plan.ClinicianDecision;
import org.gerdy.engine.plan.LoggedRun;
import org.gerdy.engine.plan.PainMonitoring;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.plan.SupportedSchedule;
import org.gerdy.engine.review.CourseRow;
import org.gerdy.engine.review.Review;

/** Works out triage of a visit and all that follows it. One instance serves many threads. */
public final class CareReasoner {
    private static final int DAYS_A_WEEK = 7;

    private final KnowledgeBase knowledge;
    private final CareTables tables;
    private final PlanReasoner plans;
    private final ReviewReading reviews;
    private final Reasons reasons;

    /** A reasoner over this knowledge base and these tables. */
    public CareReasoner(KnowledgeBase knowledge, CareTables tables) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.plans = new PlanReasoner(knowledge, tables.plan());
        this.reviews = new ReviewReading(knowledge, tables);
        this.reasons = new Reasons(knowledge);
    }

    /** The tables that follow triage. */
    public CareTables tables() {
        return tables;
    }

    /** Triage of a visit and what follows it. Only this visit and those before it are read. */
    public VisitResult visit(CaseFile caseFile, Visit visit) {
        Observations observations = Observations.of(knowledge.terms(), caseFile, visit);
        PlanReasoner.Considered considered =
                plans.consider(Reasoner.About.of(knowledge, caseFile, visit), observations, List.of());
        List<Visit> soFar = caseFile.visits().stream()
                .filter(one -> !one.date().isAfter(visit.date()))
                .toList();
        Plan plan = visit.plan()
                .flatMap(PlanEntry::said)
                .map(said -> considered.plan().with(new ClinicianDecision(said.decision(), said.reason())))
                .orElse(considered.plan());
        Optional<Review> review = reviews.review(caseFile, soFar, considered.assessment());
        List<String> undated = new ArrayList<>();
        Optional<Aftercare.Returning> returning = returning(plan, visit, soFar, undated);
        return new VisitResult(
                considered.assessment(),
                new Aftercare(
                        plan,
                        considered.stageRules().stream()
                                .map(rule -> reasons.of(rule, observations))
                                .toList(),
                        reasons(plan, observations),
                        ask(plan, observations),
                        returning,
                        supported(plan, soFar, undated),
                        List.copyOf(undated),
                        stepRate(plan, observations),
                        next(plan, considered.assessment(), soFar, review),
                        reviews.scores(caseFile, soFar),
                        review));
    }

    private Map<String, List<Reason>> reasons(Plan plan, Observations observations) {
        Map<String, List<Reason>> byItem = new LinkedHashMap<>();
        if (plan instanceof Plan.Active active) {
            active.items().forEach(chosen -> byItem.put(chosen.item().id(), all(chosen.rules(), observations)));
            active.heldBack().forEach(held -> byItem.put(held.item().id(), all(held.rules(), observations)));
        }
        return byItem;
    }

    private List<Reason> all(List<String> rules, Observations observations) {
        return rules.stream().map(rule -> reasons.of(rule, observations)).toList();
    }

    private static List<String> ask(Plan plan, Observations observations) {
        Set<String> ask = new LinkedHashSet<>();
        if (plan instanceof Plan.Active active) {
            active.heldBack().stream()
                    .filter(held -> held.reason() == Plan.Reason.NOT_ASKED)
                    .forEach(held -> held.about().forEach(id -> ask.addAll(observations.missing(id))));
        }
        return List.copyOf(ask);
    }

    private Optional<Aftercare.Returning> returning(Plan plan, Visit visit, List<Visit> soFar, List<String> undated) {
        Optional<Plan.Clearance> clearance = clearance(plan, ReturnSchedule.OPENED_BY);
        if (clearance.isEmpty()) {
            return Optional.empty();
        }
        Optional<PlanEntry.Programme> programme = latest(soFar, PlanEntry::returning);
        int steps = tables.schedules().protocol().steps().size();
        if (programme.isEmpty() || programme.get().goalMetres().isEmpty()) {
            undated.add(
                    "The way back to running has no dates yet; it needs a first day, weekdays and a goal distance.");
            return Optional.empty();
        }
        if (programme.get().step() > steps) {
            undated.add("The way back to running starts at step "
                    + programme.get().step() + "; its table has " + steps + " steps.");
            return Optional.empty();
        }
        PlanEntry.Programme frame = programme.get();
        return Optional.of(new Aftercare.Returning(
                frame,
                new ReturnSchedule(
                                tables.schedules().protocol(),
                                new PainMonitoring(tables.schedules().bands(), clearance.get()))
                        .plan(new ReturnSchedule.Request(
                                frame.start(),
                                visit.date(),
                                frame.step(),
                                frame.days(),
                                frame.goalMetres().getAsLong(),
                                log(soFar)))));
    }

    private Optional<Aftercare.Supported> supported(Plan plan, List<Visit> soFar, List<String> undated) {
        Optional<Plan.Clearance> clearance = clearance(plan, SupportedSchedule.OPENED_BY);
        Optional<PlanEntry.Programme> programme = latest(soFar, PlanEntry::supported);
        if (clearance.isEmpty()) {
            return Optional.empty();
        }
        int steps = tables.schedules().supportSteps().size();
        if (programme.isEmpty() || programme.get().step() > steps) {
            undated.add("Running with part of the weight taken off has no dates yet; it needs a first day, weekdays"
                    + " and a first step of 1 to " + steps + ".");
            return Optional.empty();
        }
        PlanEntry.Programme frame = programme.get();
        return Optional.of(new Aftercare.Supported(
                frame,
                new SupportedSchedule(
                                tables.schedules().supportSteps(),
                                tables.schedules().supportRestDays(),
                                clearance.get())
                        .plan(frame.start(), frame.step(), frame.days())));
    }

    private static Optional<Plan.Clearance> clearance(Plan plan, String opens) {
        return plan instanceof Plan.Active active ? active.clearance(opens) : Optional.empty();
    }

    private static <T> Optional<T> latest(List<Visit> visits, Function<PlanEntry, Optional<T>> part) {
        return visits.stream()
                .flatMap(visit -> visit.plan().flatMap(part).stream())
                .reduce((earlier, later) -> later);
    }

    /** Every run so far, one a day; where a day stands at two visits, as the later visit has it. */
    private static List<LoggedRun> log(List<Visit> visits) {
        Map<LocalDate, LoggedRun> byDay = new LinkedHashMap<>();
        for (Visit visit : visits) {
            for (RunEntry run : visit.runLog()) {
                byDay.put(
                        run.date(),
                        new LoggedRun(
                                run.date(),
                                run.metres(),
                                run.pain(),
                                run.settledByMorning(),
                                run.swollenOrStiff(),
                                run.risingWeekToWeek()));
            }
        }
        return List.copyOf(byDay.values());
    }

    private OptionalLong stepRate(Plan plan, Observations observations) {
        boolean given = plan instanceof Plan.Active active
                && active.items().stream().anyMatch(chosen -> tables.role(CareTables.STEP_RATE_ITEM)
                        .contains(chosen.item().id()));
        if (!given) {
            return OptionalLong.empty();
        }
        return tables.role(CareTables.USUAL_STEP_RATE).stream()
                .flatMap(id -> observations.recorded(id).stream())
                .flatMap(recorded -> recorded.on(Side.LEFT).stream())
                .filter(Answer.Quantity.class::isInstance)
                .mapToLong(answer -> tables.schedules().stepRate().target(((Answer.Quantity) answer).value()))
                .findFirst();
    }

    private Aftercare.NextLook next(Plan plan, Assessment assessment, List<Visit> soFar, Optional<Review> review) {
        LocalDate first = soFar.get(0).date();
        Optional<CourseRow.Visit> look = review.isPresent()
                ? review.get().next()
                : tables.review().course().stream()
                        .filter(CourseRow.Visit.class::isInstance)
                        .map(CourseRow.Visit.class::cast)
                        .findFirst();
        Set<String> watch = new LinkedHashSet<>();
        watch.add(tables.comeBack().text());
        if (plan instanceof Plan.Active active) {
            active.items().stream()
                    .map(chosen -> chosen.item().stop())
                    .filter(stop -> !stop.startsWith("None"))
                    .forEach(watch::add);
        }
        return new Aftercare.NextLook(
                look.map(row -> first.plusDays(Math.round(row.fromWeek() * DAYS_A_WEEK)))
                        .filter(date -> date.isAfter(assessment.visit())),
                look.map(CourseRow.Visit::text).orElse(""),
                List.copyOf(watch));
    }
}
