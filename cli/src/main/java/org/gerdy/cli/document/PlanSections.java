package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.gerdy.cli.Words;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.cli.document.Document.Bullets;
import org.gerdy.cli.document.Document.Fine;
import org.gerdy.cli.document.Document.Grid;
import org.gerdy.cli.document.Document.Heading;
import org.gerdy.cli.document.Document.Lead;
import org.gerdy.cli.document.Document.Para;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.plan.InterimAdvice;
import org.gerdy.engine.plan.Loading;
import org.gerdy.engine.plan.NotAdvised;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.plan.RunStep;
import org.gerdy.engine.plan.SupportStep;
import org.gerdy.engine.plan.SupportedSchedule;

/** The plan and its dated programmes in the clinician's words. */
final class PlanSections {
    private final Naming naming;
    private final CareTables tables;

    PlanSections(Naming naming, CareTables tables) {
        this.naming = naming;
        this.tables = tables;
    }

    /** Plan, programmes and next look. */
    List<Section> all(Aftercare care) {
        return sections(care, true);
    }

    /** The same in short: items with their dose, runs gathered by step, what is not advised by name. */
    List<Section> onSummary(Aftercare care) {
        return sections(care, false);
    }

    private List<Section> sections(Aftercare care, boolean whole) {
        List<Section> sections = new ArrayList<>();
        sections.add(plan(care, whole));
        if (care.returning().isPresent()
                || care.supported().isPresent()
                || !care.undated().isEmpty()) {
            sections.add(programmes(care, whole));
        }
        // What stands in the plan above is not said twice.
        Set<String> said = new LinkedHashSet<>();
        care.interim().ifPresent(interim -> interim.advice().forEach(row -> said.add(row.text())));
        if (whole) {
            care.active().ifPresent(active -> said.addAll(stops(active).keySet()));
        }
        sections.add(next(care, watch(care, said)));
        return sections;
    }

    /** Plan and next look in short: what, how much, what waits for an answer. */
    List<Section> brief(Aftercare care) {
        List<Block> blocks = new ArrayList<>();
        care.interim().ifPresent(interim -> {
            blocks.add(new Para("Interim advice only. " + interim.because()));
            blocks.add(
                    new Bullets(interim.advice().stream().map(row -> row.text()).toList()));
        });
        care.active().ifPresent(active -> {
            blocks.add(new Para("Stage: " + active.stage() + ". 'gerdy plan' shows progression, stop rules, what is"
                    + " held back and why; 'gerdy handout' is for the patient."));
            blocks.add(new Bullets(active.items().stream()
                    .map(chosen ->
                            chosen.item().label() + ": " + chosen.item().dose().text())
                    .toList()));
            if (!care.ask().isEmpty()) {
                blocks.add(new Para("Further items wait for: " + String.join(", ", care.ask()) + "."));
            }
        });
        care.plan()
                .clinician()
                .ifPresent(said -> blocks.add(
                        new Para("The clinician decided: " + said.decision() + " Reason: " + said.reason())));
        care.undated().forEach(sentence -> blocks.add(new Para(sentence)));
        care.returning()
                .flatMap(returning -> returning.schedule().sessions().stream().findFirst())
                .ifPresent(first -> blocks.add(new Para("Next run: " + Naming.shortDay(first.date()) + ", "
                        + Naming.kmToRun(first.metres()) + ", " + round(first.step()) + ".")));
        care.stepRateTarget()
                .ifPresent(target -> blocks.add(new Para("Step rate to aim for: " + target + " steps a minute.")));
        List<Block> next = new ArrayList<>();
        care.next()
                .date()
                .ifPresent(date -> next.add(
                        new Para("By " + Naming.day(date) + ". " + care.next().what())));
        next.add(new Para(tables.comeBack().text()));
        return List.of(new Section("plan", "Plan", blocks), new Section("next", "Next look", next));
    }

    /** What to do now, what is held back, what is not advised. */
    private Section plan(Aftercare care, boolean whole) {
        List<Block> blocks = new ArrayList<>();
        care.interim().ifPresent(interim -> {
            blocks.add(new Lead("Interim advice only. " + interim.because()));
            blocks.add(
                    new Bullets(interim.advice().stream().map(row -> row.text()).toList()));
        });
        care.active().ifPresent(active -> items(active, care, whole, blocks));
        care.plan().clinician().ifPresent(said -> {
            blocks.add(new Heading("The clinician's own decision"));
            blocks.add(new Para(said.decision() + " Reason: " + said.reason()));
        });
        return new Section("plan", "Plan", blocks);
    }

    private void items(Plan.Active active, Aftercare care, boolean whole, List<Block> blocks) {
        Set<String> because = new LinkedHashSet<>();
        care.stageReasons().stream().map(Reason::because).forEach(because::add);
        blocks.add(new Para("Stage: " + active.stage() + ". " + String.join(". ", because) + "."));
        if (active.items().isEmpty()) {
            blocks.add(new Para("No item can be given yet; see what is held back."));
        } else if (!whole) {
            blocks.add(new Grid(
                    "Items given; 'gerdy plan' has how each moves on",
                    List.of("Item", "Dose", "Evidence"),
                    active.items().stream()
                            .map(Plan.Chosen::item)
                            .map(item -> List.of(
                                    item.label(),
                                    item.dose().text(),
                                    Words.plain(item.evidence().strength())))
                            .toList()));
        } else {
            Map<String, String> labels = naming.table("plan-categories.csv", "category", "label");
            blocks.add(new Grid(
                    "Items given",
                    List.of("Item", "Kind", "Dose", "Moves on", "Stops", "Evidence"),
                    active.items().stream()
                            .map(Plan.Chosen::item)
                            .map(item -> List.of(
                                    item.label(),
                                    labels.getOrDefault(item.category(), item.category()),
                                    item.dose().text(),
                                    needed(item.progression()),
                                    needed(item.stop()),
                                    evidence(item)))
                            .toList()));
        }
        care.stepRateTarget()
                .ifPresent(target -> blocks.add(new Para("Step rate to aim for on the ground: " + target
                        + " steps a minute. Not on the supported treadmill, where step rate falls with support.")));
        held(active, care, blocks);
        if (!active.notAdvised().isEmpty()) {
            if (whole) {
                blocks.add(new Heading("Not advised, and why"));
            }
            blocks.add(
                    whole
                            ? new Bullets(active.notAdvised().stream()
                                    .map(PlanSections::notAdvised)
                                    .toList())
                            : new Fine("Not advised: "
                                    + String.join(
                                            "; ",
                                            active.notAdvised().stream()
                                                    .map(NotAdvised::label)
                                                    .toList())
                                    + ". 'gerdy plan' says why."));
        }
    }

    private static String evidence(PlanItem item) {
        return Words.plain(
                item.evidence().strength() + " (" + item.evidence().basis().word() + ")");
    }

    private static String needed(String cell) {
        return cell.startsWith("None needed") ? "" : cell;
    }

    private static String notAdvised(NotAdvised row) {
        return row.label() + ": " + row.why() + (row.instead().isEmpty() ? "" : " Instead: " + row.instead());
    }

    private void held(Plan.Active active, Aftercare care, List<Block> blocks) {
        List<String> held = active.heldBack().stream()
                .filter(one -> one.reason() != Plan.Reason.OTHER_CONDITION && one.reason() != Plan.Reason.STAGE)
                .map(one -> one.item().label() + ": " + why(one) + ".")
                .toList();
        if (!held.isEmpty()) {
            blocks.add(new Heading("Held back"));
            blocks.add(new Bullets(held));
        }
        if (!care.ask().isEmpty()) {
            blocks.add(new Heading("Ask to free what is held back"));
            blocks.add(new Bullets(care.ask().stream()
                    .map(id -> naming.words().finding(id) + " [" + id + "]")
                    .toList()));
        }
    }

    private String why(Plan.HeldBack held) {
        String about =
                String.join("; ", held.about().stream().map(naming::thing).toList());
        return switch (held.reason()) {
            case CONTRAINDICATED -> "contraindicated by " + about;
            case NOT_ASKED -> "a contraindication has not been asked about (" + String.join(", ", held.about()) + ")";
            case RED_FLAG -> "a red flag that forbids it is raised or open (" + about + ")";
            case CANDIDATE -> "a candidate that forbids it is not yet unlikely (" + about + ")";
            case OTHER_CONDITION -> "it is for " + about;
            case STAGE -> "it belongs to another stage";
        };
    }

    /** Dated programmes, or what keeps them from being dated. */
    private Section programmes(Aftercare care, boolean whole) {
        List<Block> blocks = new ArrayList<>();
        care.undated().forEach(sentence -> blocks.add(new Para(sentence)));
        care.returning().ifPresent(returning -> returning(returning, whole, blocks));
        care.supported().ifPresent(supported -> supported(supported, whole, blocks));
        return new Section("programmes", "Way back to running", blocks);
    }

    private void returning(Aftercare.Returning returning, boolean whole, List<Block> blocks) {
        ReturnSchedule.Schedule schedule = returning.schedule();
        blocks.add(new Para("From " + Naming.day(returning.programme().start()) + ", to "
                + Naming.km(returning.programme().goalMetres().orElse(0)) + ". " + ending(schedule.ending())));
        if (!schedule.sessions().isEmpty() || !schedule.judged().isEmpty()) {
            blocks.add(CalendarChart.of("calendar-picture", schedule));
        }
        if (!schedule.judged().isEmpty()) {
            blocks.add(LoadChart.of(schedule.judged()));
        }
        if (!schedule.judged().isEmpty() && whole) {
            blocks.add(new Grid(
                    "Runs logged, and what they say about the next",
                    List.of("Day", "Distance", "Pain", "Next morning", "Says", "Cap"),
                    schedule.judged().stream().map(PlanSections::judged).toList()));
        }
        if (!schedule.judged().isEmpty() && !whole) {
            blocks.add(new Para(logged(schedule.judged())));
        }
        if (!schedule.sessions().isEmpty()) {
            blocks.add(
                    whole
                            ? sessions("Runs to come", schedule.sessions())
                            : bySteps("Runs to come", schedule.sessions()));
        }
        blocks.add(new Para("Between runs: " + tables.schedules().protocol().restDays() + " day of rest at least. "
                + "A step counts when it was done in full, pain was "
                + scheme(Loading.PROGRESS) + ", back to usual the next morning, without swelling. Above that the same "
                + "again; " + scheme(Loading.BACK) + ", worse the next morning or climbing from week to week: one step "
                + "back. No run is longer than "
                + tables.schedules().protocol().cap().percent()
                + " % of the longest of the last "
                + tables.schedules().protocol().cap().windowDays()
                + " days. The pain bands come from other tendons; they were not tested here."));
    }

    private static Grid sessions(String caption, List<ReturnSchedule.Session> sessions) {
        return new Grid(
                caption,
                List.of("Day", "Step", "Each round", "Distance"),
                sessions.stream()
                        .map(session -> List.of(
                                Naming.shortDay(session.date()),
                                Integer.toString(session.step().phase()),
                                round(session.step()),
                                Naming.kmToRun(session.metres())
                                        + (session.shortened() ? ", shortened by the cap" : "")))
                        .toList());
    }

    /** The same runs with those of one step and distance in one row. */
    static Grid bySteps(String caption, List<ReturnSchedule.Session> sessions) {
        Map<List<String>, List<String>> days = new LinkedHashMap<>();
        for (ReturnSchedule.Session session : sessions) {
            List<String> run = List.of(
                    Naming.kmToRun(session.metres()) + (session.shortened() ? ", shortened by the cap" : ""),
                    Integer.toString(session.step().phase()),
                    round(session.step()));
            days.computeIfAbsent(run, ignored -> new ArrayList<>()).add(Naming.shortDay(session.date()));
        }
        return new Grid(
                caption,
                List.of("Distance", "Step", "Each round", "Days"),
                days.entrySet().stream()
                        .map(entry -> List.of(
                                entry.getKey().get(0),
                                entry.getKey().get(1),
                                entry.getKey().get(2),
                                String.join("; ", entry.getValue())))
                        .toList());
    }

    /** What the runs logged came to: how many count, and each that does not or passed the cap. */
    private static String logged(List<ReturnSchedule.Judged> judged) {
        long counting =
                judged.stream().filter(one -> one.loading() == Loading.PROGRESS).count();
        List<String> others = judged.stream()
                .filter(one -> one.loading() != Loading.PROGRESS || one.overCap())
                .map(one -> {
                    List<String> row = judged(one);
                    return row.get(0) + ": " + row.get(1) + ", pain " + row.get(2) + ", next morning " + row.get(3)
                            + ", " + row.get(4) + (one.overCap() ? ", " + row.get(5) : "");
                })
                .toList();
        return "Runs logged: " + judged.size() + ", of which " + counting + (counting == 1 ? " counts." : " count.")
                + (others.isEmpty() ? "" : " " + String.join(". ", others) + ".");
    }

    private String scheme(Loading loading) {
        return tables.schedules().bands().stream()
                .filter(band -> band.loading() == loading)
                .findFirst()
                .map(band -> band.above() < 0
                        ? "at " + Naming.number(band.upTo()) + "/10 or less"
                        : "above " + Naming.number(band.above()) + "/10")
                .orElse("as agreed");
    }

    private static List<String> judged(ReturnSchedule.Judged judged) {
        String pain = judged.run().pain().isPresent()
                ? Naming.number(judged.run().pain().getAsDouble()) + "/10"
                : "not recorded";
        String morning =
                switch (judged.run().settledByMorning()) {
                    case TRUE -> "settled";
                    case FALSE -> "worse";
                    case UNKNOWN -> "not asked";
                };
        String says =
                switch (judged.loading()) {
                    case PROGRESS -> "counts";
                    case HOLD -> "same again";
                    case BACK -> "one step back";
                };
        return List.of(
                Naming.shortDay(judged.run().date()),
                Naming.km(judged.run().metres()),
                pain,
                morning,
                says,
                judged.overCap() ? "longer than allowed" : "kept");
    }

    /** What one round of a step is, in words. */
    static String round(RunStep step) {
        return step.runMinutes().isEmpty()
                ? "run without a break"
                : "walk " + Naming.number(step.walkMinutes()) + " min, run "
                        + Naming.number(step.runMinutes().getAsDouble()) + " min";
    }

    private static String ending(ReturnSchedule.Ending ending) {
        return switch (ending) {
            case GOAL -> "The schedule ends when the goal distance has been done.";
            case HORIZON -> "The goal is not reached within the time a schedule may run; look again and plan anew.";
            case NO_DAYS -> "No weekday suits, so nothing is dated.";
            case REVIEW_FIRST -> "Two steps back in a row: no running until the patient has been seen again.";
        };
    }

    private void supported(Aftercare.Supported supported, boolean whole, List<Block> blocks) {
        blocks.add(new Heading("With part of the weight taken off"));
        if (!whole) {
            Map<String, List<String>> days = new LinkedHashMap<>();
            supported.sessions().forEach(session -> days.computeIfAbsent(
                            session.step().support().words(), ignored -> new ArrayList<>())
                    .add(Naming.shortDay(session.date())));
            blocks.add(new Grid(
                    "Sessions; 'gerdy plan' has bouts and what is likely delivered",
                    List.of("Setting", "Days"),
                    days.entrySet().stream()
                            .map(entry -> List.of(entry.getKey(), String.join("; ", entry.getValue())))
                            .toList()));
            return;
        }
        blocks.add(new Grid(
                "Sessions",
                List.of("Day", "Step", "Setting", "Bouts", "Likely delivered"),
                supported.sessions().stream().map(this::session).toList()));
        blocks.add(new Bullets(tables.schedules().effects().stream()
                .map(effect -> effect.measure() + ": " + effect.text())
                .toList()));
    }

    private List<String> session(SupportedSchedule.Session session) {
        SupportStep step = session.step();
        return List.of(
                Naming.shortDay(session.date()),
                Integer.toString(step.week()),
                step.support().words(),
                range(step.bouts().low(), step.bouts().high()) + " of "
                        + range(step.boutMinutes().low(), step.boutMinutes().high()) + " min in "
                        + Naming.number(step.sessionMinutes()) + " min",
                tables.schedules()
                        .supportAccuracy()
                        .delivered(step.support())
                        .map(delivered -> Naming.number(delivered.percentOfWeight()) + " % of weight carried")
                        .orElse(""));
    }

    private static String range(double low, double high) {
        return low == high ? Naming.number(low) : Naming.number(low) + " to " + Naming.number(high);
    }

    /** What to come back for, and every stop rule with the items it holds for. */
    private static List<String> watch(Aftercare care, Set<String> said) {
        Map<String, String> stops = new LinkedHashMap<>();
        care.active().ifPresent(active -> stops.putAll(stops(active)));
        return care.next().watch().stream()
                .filter(rule -> !said.contains(rule))
                .map(rule -> stops.getOrDefault(rule, rule))
                .toList();
    }

    /** Each stop rule of a plan, led by the items it holds for. */
    static Map<String, String> stops(Plan.Active active) {
        Map<String, String> items = new LinkedHashMap<>();
        active.items().stream()
                .map(Plan.Chosen::item)
                .filter(item -> !item.stop().startsWith("None"))
                .forEach(item -> items.merge(item.stop(), item.label(), (one, more) -> one + "; " + more));
        items.replaceAll((stop, labels) -> labels + ": " + stop);
        return items;
    }

    /** When to look again, and what to watch until then. */
    Section next(Aftercare care) {
        return next(care, watch(care, Set.of()));
    }

    private static Section next(Aftercare care, List<String> watch) {
        List<Block> blocks = new ArrayList<>();
        care.next()
                .date()
                .ifPresent(date -> blocks.add(
                        new Para("By " + Naming.day(date) + ". " + care.next().what())));
        if (watch.isEmpty()) {
            blocks.add(new Para("Until then: as under the plan above."));
        } else {
            blocks.add(new Heading("Until then"));
            blocks.add(new Bullets(watch));
        }
        return new Section("next", "Next look", blocks);
    }

    /** What the patient is told until seen: once somebody else is to see them, our own open questions are not theirs. */
    static List<InterimAdvice> told(Plan.Interim interim) {
        boolean levelled = interim.advice().stream()
                .anyMatch(row -> !row.urgencies().isEmpty() && row.flag().isEmpty());
        return interim.advice().stream()
                .filter(row ->
                        !levelled || !row.urgencies().isEmpty() || !row.flag().isEmpty())
                .toList();
    }
}
