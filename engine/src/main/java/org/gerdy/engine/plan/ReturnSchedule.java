package org.gerdy.engine.plan;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The way back to running, dated. Worked out from the start step, the days available and the runs logged so far, so the
 * same call plans and re-plans. Where the table's distance and the session cap differ, the lower counts.
 */
public final class ReturnSchedule {
    /** What a plan item says it opens when it opens this schedule. */
    public static final String OPENED_BY = "return-schedule";

    private final RunProtocol protocol;
    private final PainMonitoring monitoring;

    /** A schedule by this protocol; the monitoring carries the plan's clearance. */
    public ReturnSchedule(RunProtocol protocol, PainMonitoring monitoring) {
        this.protocol = protocol;
        this.monitoring = monitoring;
    }

    /**
     * What to plan for.
     *
     * @param start first day of the programme
     * @param today the day of planning; sessions are planned from the later of the two on
     * @param startStep first step, from 1 to the number of steps
     * @param days weekdays that suit
     * @param goalMetres the distance that ends the programme, metres, above zero
     * @param log runs done, in any order; those before {@code start} count for the session cap only
     */
    public record Request(
            LocalDate start,
            LocalDate today,
            int startStep,
            Set<DayOfWeek> days,
            long goalMetres,
            List<LoggedRun> log) {
        /** Throws {@link IllegalArgumentException} when the goal is not above zero. */
        public Request {
            days = Set.copyOf(days);
            log = log.stream()
                    .sorted(java.util.Comparator.comparing(LoggedRun::date))
                    .toList();
            if (goalMetres < 1) {
                throw new IllegalArgumentException("The goal distance should be above zero.");
            }
        }
    }

    /** Why a schedule ends where it does. */
    public enum Ending {
        /** The goal distance is done as often as each step asks. */
        GOAL,
        /** The horizon is reached first; look again and plan anew. */
        HORIZON,
        /** No weekday suits. */
        NO_DAYS,
        /** Steps back in a row: stop running and be seen. */
        REVIEW_FIRST
    }

    /**
     * One planned session.
     *
     * @param date the day
     * @param step the walk-run step
     * @param metres whole distance, metres
     * @param shortened whether the session cap made it shorter than the step
     */
    public record Session(LocalDate date, RunStep step, long metres, boolean shortened) {}

    /**
     * What a logged run came to.
     *
     * @param run the run
     * @param loading what it says about the next
     * @param overCap whether it was longer than the session cap allowed
     */
    public record Judged(LoggedRun run, Loading loading, boolean overCap) {}

    /**
     * A dated schedule.
     *
     * @param judged the logged runs of the programme, in order
     * @param sessions the sessions to come, in order
     * @param ending why it ends
     */
    public record Schedule(List<Judged> judged, List<Session> sessions, Ending ending) {}

    /** A step of the table, or a growing distance after its last step. */
    private record Rung(RunStep step, long metres) {}

    /**
     * The schedule for this request.
     *
     * @throws IllegalArgumentException when the start step is not of the table
     */
    public Schedule plan(Request request) {
        if (request.startStep() < 1 || request.startStep() > protocol.steps().size()) {
            throw new IllegalArgumentException(
                    "The start step should be 1 to " + protocol.steps().size() + ", not " + request.startStep() + ".");
        }
        return new Run(request, rungs(request.goalMetres())).schedule();
    }

    private List<Rung> rungs(long goal) {
        List<Rung> rungs = new ArrayList<>();
        for (RunStep step : protocol.steps()) {
            rungs.add(new Rung(step, Math.min(step.metres(), goal)));
        }
        RunStep last = protocol.steps().get(protocol.steps().size() - 1);
        long reached = Math.min(last.metres(), goal);
        while (reached < goal) {
            long next = Math.min(goal, protocol.cap().grow(reached));
            if (next <= reached) {
                break;
            }
            rungs.add(new Rung(last, next));
            reached = next;
        }
        return rungs;
    }

    /** One working-out; holds where the runner stands. */
    private final class Run {
        private final Request request;
        private final List<Rung> rungs;
        private final List<SessionCap.Done> counted = new ArrayList<>();
        private final List<Judged> judged = new ArrayList<>();
        private int rung;
        private int done;
        private int backs;
        private LocalDate earliest;

        Run(Request request, List<Rung> rungs) {
            this.request = request;
            this.rungs = rungs;
            this.rung = request.startStep() - 1;
            this.earliest = request.start().isAfter(request.today()) ? request.start() : request.today();
        }

        Schedule schedule() {
            request.log().forEach(this::take);
            if (backs >= protocol.backsBeforeReview()) {
                return new Schedule(List.copyOf(judged), List.of(), Ending.REVIEW_FIRST);
            }
            if (request.days().isEmpty()) {
                return new Schedule(List.copyOf(judged), List.of(), Ending.NO_DAYS);
            }
            if (laidOff(earliest)) {
                begin();
            }
            List<Session> sessions = new ArrayList<>();
            LocalDate end = earliest.plusDays(protocol.horizonDays());
            for (LocalDate day = earliest; rung < rungs.size(); day = day.plusDays(1)) {
                if (!day.isBefore(end)) {
                    return new Schedule(List.copyOf(judged), List.copyOf(sessions), Ending.HORIZON);
                }
                if (day.isBefore(earliest) || !request.days().contains(day.getDayOfWeek())) {
                    continue;
                }
                Rung now = rungs.get(rung);
                long metres = Math.min(now.metres(), protocol.cap().allowed(day, counted));
                sessions.add(new Session(day, now.step(), metres, metres < now.metres()));
                counted.add(new SessionCap.Done(day, metres));
                credit(metres);
                earliest = day.plusDays(1L + protocol.restDays());
            }
            return new Schedule(List.copyOf(judged), List.copyOf(sessions), Ending.GOAL);
        }

        private void take(LoggedRun run) {
            if (run.date().isBefore(request.start())) {
                counted.add(new SessionCap.Done(run.date(), run.metres()));
                return;
            }
            if (laidOff(run.date())) {
                begin();
            }
            Loading loading = monitoring.judge(
                    run,
                    request.log().stream()
                            .filter(other -> other.date().isBefore(run.date()))
                            .toList());
            judged.add(new Judged(
                    run,
                    loading,
                    run.metres() > protocol.cap().allowed(run.date(), counted) + protocol.logRounding() / 2));
            int rest = protocol.restDays();
            switch (loading) {
                case PROGRESS -> {
                    backs = 0;
                    credit(run.metres());
                    counted.add(new SessionCap.Done(run.date(), run.metres()));
                }
                case HOLD -> {
                    backs = 0;
                    counted.add(new SessionCap.Done(run.date(), run.metres()));
                }
                case BACK -> {
                    // A run that hurt is no measure of what is tolerated, so it does not lift the cap.
                    backs++;
                    rung = Math.max(0, Math.min(rung, rungs.size() - 1) - 1);
                    done = 0;
                    rest = protocol.restAfterBack();
                }
            }
            LocalDate next = run.date().plusDays(1L + rest);
            earliest = next.isAfter(earliest) ? next : earliest;
        }

        private void credit(long metres) {
            if (rung < rungs.size() && metres > rungs.get(rung).metres() - protocol.logRounding()) {
                done++;
                if (done >= protocol.sessionsPerStep()) {
                    rung++;
                    done = 0;
                }
            }
        }

        /** Whether the programme had begun and then stood still for longer than the cap looks back. */
        private boolean laidOff(LocalDate day) {
            return !judged.isEmpty()
                    && judged.get(judged.size() - 1)
                            .run()
                            .date()
                            .isBefore(day.minusDays(protocol.cap().windowDays()));
        }

        private void begin() {
            rung = 0;
            done = 0;
            backs = 0;
        }
    }
}
