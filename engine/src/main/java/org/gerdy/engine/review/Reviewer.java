package org.gerdy.engine.review;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.logic.Answers;
import org.gerdy.engine.logic.Truth;

/** Reads scores over visits. */
public final class Reviewer {
    private static final double DAYS_A_WEEK = 7;

    private final ReviewTables tables;

    /** A reviewer over these tables. */
    public Reviewer(ReviewTables tables) {
        this.tables = tables;
    }

    /**
     * What a review is about, beside the scores.
     *
     * @param conditions leading and plausible conditions, most likely first
     * @param answers what is known today
     * @param redFlags the danger screen of today
     * @param adherence share of the planned work done, percent; empty when nobody asked
     * @param goalMet whether the patient's own goal is reached
     */
    public record Today(
            List<String> conditions,
            Answers answers,
            Review.RedFlags redFlags,
            OptionalDouble adherence,
            Truth goalMet) {}

    /**
     * The review on the day of the last visit.
     *
     * @param visits every visit, in any order; the earliest is the first
     * @throws IllegalArgumentException when there is no visit, or a total its instrument cannot give
     */
    public Review review(List<ScoreVisit> visits, Today today) {
        if (visits.isEmpty()) {
            throw new IllegalArgumentException("A review needs a visit.");
        }
        List<ScoreVisit> ordered =
                visits.stream().sorted(Comparator.comparing(ScoreVisit::date)).toList();
        LocalDate first = ordered.get(0).date();
        LocalDate last = ordered.get(ordered.size() - 1).date();
        double weeks = ChronoUnit.DAYS.between(first, last) / DAYS_A_WEEK;
        List<Series> series = tables.instruments().values().stream()
                .map(instrument -> Series.of(instrument, ordered))
                .toList();
        List<Change> changes = changes(series, today, last);
        Response response = response(changes, today.redFlags());
        List<String> stalled = series.stream()
                .filter(one -> stalled(one, today))
                .map(one -> one.instrument().id())
                .toList();
        OptionalDouble view = series.stream()
                .filter(one -> one.instrument().role() == Instrument.Role.GLOBAL)
                .flatMap(one -> one.at(last).stream().boxed())
                .mapToDouble(Double::doubleValue)
                .findFirst();
        boolean worseTwice = worseTwice(series, today, last);
        return new Review(
                last,
                weeks,
                today.redFlags(),
                changes,
                response,
                stalled,
                view,
                differs(view, response),
                due(weeks, response, !stalled.isEmpty(), worseTwice, today),
                tables.course().stream()
                        .filter(CourseRow.Expected.class::isInstance)
                        .map(CourseRow.Expected.class::cast)
                        .toList(),
                tables.course().stream()
                        .filter(CourseRow.Visit.class::isInstance)
                        .map(CourseRow.Visit.class::cast)
                        .filter(visit -> visit.fromWeek() > weeks)
                        .findFirst(),
                Optional.empty());
    }

    private List<Change> changes(List<Series> series, Today today, LocalDate day) {
        List<Change> changes = new ArrayList<>();
        for (Series one : series) {
            if (one.instrument().role() != Instrument.Role.GLOBAL) {
                change(one, today, day).ifPresent(changes::add);
            }
        }
        return List.copyOf(changes);
    }

    /** The change shown on a day; empty when that day has no complete score of its own. */
    private Optional<Change> change(Series one, Today today, LocalDate day) {
        OptionalDouble now = one.at(day);
        if (now.isEmpty() || !one.first().isBefore(day)) {
            return Optional.empty();
        }
        Threshold threshold = tables.threshold(one.instrument().id(), today.conditions());
        return Optional.of(Change.of(one.instrument(), one.first(), one.baseline(), day, now.getAsDouble(), threshold));
    }

    private static Response response(List<Change> changes, Review.RedFlags redFlags) {
        if (!redFlags.raised().isEmpty() || changes.stream().anyMatch(change -> change.verdict() == Verdict.WORSE)) {
            return Response.WORSE;
        }
        Set<Instrument.Role> core = Set.of(Instrument.Role.PAIN, Instrument.Role.GOAL, Instrument.Role.SPORT);
        List<Change> read = changes.stream()
                .filter(change -> core.contains(change.instrument().role()) && !change.untestable())
                .toList();
        boolean pain = better(read, Instrument.Role.PAIN);
        boolean goal = better(read, Instrument.Role.GOAL);
        boolean sport = better(read, Instrument.Role.SPORT);
        if (sport || (pain && goal)) {
            return Response.BETTER;
        }
        if (pain || goal) {
            return Response.PARTIAL;
        }
        return read.isEmpty() ? Response.NOT_KNOWN : Response.UNCHANGED;
    }

    private static boolean better(List<Change> changes, Instrument.Role role) {
        return changes.stream()
                .anyMatch(
                        change -> change.instrument().role() == role && change.verdict() == Verdict.BETTER_THAN_ERROR);
    }

    private boolean stalled(Series one, Today today) {
        OptionalDouble matters = tables.threshold(one.instrument().id(), today.conditions())
                .important()
                .flatMap(Measurement::important)
                .map(range -> OptionalDouble.of(range.low()))
                .orElse(OptionalDouble.empty());
        int needed = (int) tables.settings().value("plateau_reviews");
        List<Series.Point> points = one.points();
        if (one.instrument().role() == Instrument.Role.GLOBAL
                || matters.isEmpty()
                || today.goalMet() == Truth.TRUE
                || points.size() <= needed) {
            return false;
        }
        double small = matters.getAsDouble() * tables.settings().value("plateau_share_of_important_change");
        long gap = (long) tables.settings().value("plateau_gap_days");
        Series.Point end = points.get(points.size() - 1);
        boolean atBest = one.instrument().headroom(end.total()).orElse(1) <= 0;
        for (int i = points.size() - needed; i < points.size(); i++) {
            Series.Point before = points.get(i - 1);
            Series.Point after = points.get(i);
            if (ChronoUnit.DAYS.between(before.date(), after.date()) < gap
                    || Math.abs(after.total() - before.total()) >= small) {
                return false;
            }
        }
        return !atBest;
    }

    private boolean worseTwice(List<Series> series, Today today, LocalDate last) {
        long days = (long) tables.settings().value("worse_twice_days");
        return series.stream()
                .filter(one -> one.instrument().role() != Instrument.Role.GLOBAL)
                .anyMatch(one -> one.points().stream()
                                .map(Series.Point::date)
                                .filter(date -> !date.isBefore(last.minusDays(days)))
                                .filter(date -> change(one, today, date)
                                        .map(change -> change.verdict() == Verdict.WORSE)
                                        .orElse(false))
                                .count()
                        >= 2);
    }

    private boolean differs(OptionalDouble view, Response response) {
        if (view.isEmpty()) {
            return false;
        }
        boolean saysBetter = view.getAsDouble() >= tables.settings().value("global_rating_better");
        boolean saysWorse = view.getAsDouble() <= tables.settings().value("global_rating_worse");
        return switch (response) {
            case BETTER, PARTIAL -> !saysBetter;
            case UNCHANGED -> saysBetter || saysWorse;
            case WORSE -> !saysWorse;
            case NOT_KNOWN -> false;
        };
    }

    private List<Review.Due> due(double weeks, Response response, boolean stalled, boolean worseTwice, Today today) {
        List<Review.Due> due = new ArrayList<>();
        for (CourseRow row : tables.course()) {
            if (row instanceof CourseRow.Escalation escalation) {
                List<String> ask = new ArrayList<>();
                Truth met = Truth.of(weeks >= escalation.fromWeek().orElse(0)
                                && weeks < escalation.beforeWeek().orElse(Double.POSITIVE_INFINITY))
                        .and(asked(responds(escalation, response), "scores", ask))
                        .and(triggered(escalation.trigger(), stalled, worseTwice, today))
                        .and(asked(adheres(escalation, today.adherence()), "adherence", ask))
                        .and(holds(escalation, today, ask));
                if (met != Truth.FALSE) {
                    due.add(new Review.Due(
                            escalation, met == Truth.TRUE, met == Truth.TRUE ? List.of() : List.copyOf(ask)));
                }
            }
        }
        return List.copyOf(due);
    }

    private static Truth asked(Truth truth, String what, List<String> ask) {
        if (truth == Truth.UNKNOWN) {
            ask.add(what);
        }
        return truth;
    }

    private static Truth responds(CourseRow.Escalation row, Response response) {
        if (row.responses().isEmpty()) {
            return Truth.TRUE;
        }
        return response == Response.NOT_KNOWN
                ? Truth.UNKNOWN
                : Truth.of(row.responses().contains(response));
    }

    private static Truth triggered(CourseRow.Trigger trigger, boolean stalled, boolean worseTwice, Today today) {
        return switch (trigger) {
            case NONE -> Truth.TRUE;
            case RED_FLAG -> Truth.of(!today.redFlags().raised().isEmpty());
            case WORSE_TWICE -> Truth.of(worseTwice);
            case PLATEAU -> Truth.of(stalled);
        };
    }

    private static Truth adheres(CourseRow.Escalation row, OptionalDouble adherence) {
        if (row.adherenceBelow().isEmpty() && row.adherenceFrom().isEmpty()) {
            return Truth.TRUE;
        }
        if (adherence.isEmpty()) {
            return Truth.UNKNOWN;
        }
        double done = adherence.getAsDouble();
        return Truth.of(done < row.adherenceBelow().orElse(Double.POSITIVE_INFINITY)
                && done >= row.adherenceFrom().orElse(0));
    }

    private static Truth holds(CourseRow.Escalation row, Today today, List<String> ask) {
        return row.when()
                .map(expression -> {
                    Truth truth = expression.in(today.answers());
                    if (truth == Truth.UNKNOWN) {
                        ask.addAll(expression.findings());
                    }
                    return truth;
                })
                .orElse(Truth.TRUE);
    }
}
