package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.drill.DrillScore.Kind;
import org.gerdy.engine.drill.DrillScore.Line;
import org.gerdy.engine.drill.DrillScore.Part;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Marks one piece of work. The standard is what the rules make of the answers asked for and of those on the most
 * informative path together; what nobody asked and the best path does not need is held against nobody.
 */
public final class Marker {
    private final DrillMaster master;
    private final DrillTables tables;
    private final CareMarks care;
    private final MindChange changed;

    /** A marker that holds work to this master's answers. */
    public Marker(DrillMaster master) {
        this.master = master;
        this.tables = master.tables();
        this.care = new CareMarks(tables, master.knowledge());
        this.changed = new MindChange(master);
    }

    /**
     * Work marked, and what it was held to.
     *
     * @param model the standard
     * @param walk the most informative path
     */
    public record Marked(DrillScore score, ModelAnswer model, DrillMaster.Walk walk) {}

    /** Marks the work. */
    public Marked mark(Inquiry inquiry, DrillMaster.Walk walk, Commitment stated) {
        ModelAnswer model = master.model(inquiry.patient(), master.union(walk.inquiry(), inquiry));
        boolean dangerous = model.urgency().step() >= number("dangerous-from");
        List<Part> parts = new ArrayList<>();
        parts.add(safety(inquiry, walk, stated, model));
        parts.add(differential(stated, model));
        parts.add(rank(stated, model));
        parts.add(efficiency(inquiry, walk, model));
        care.factors(inquiry, walk, stated, model).ifPresent(parts::add);
        parts.add(care.plan(stated, model));
        care.settle(inquiry, stated, model).ifPresent(parts::add);
        boolean under = stated.urgency().compareTo(model.urgency()) < 0;
        DrillScore score =
                new DrillScore(List.copyOf(parts), dangerous, under, changed.line(inquiry, stated, model, under));
        return new Marked(score, model, walk);
    }

    private Part safety(Inquiry inquiry, DrillMaster.Walk walk, Commitment stated, ModelAnswer model) {
        List<Line> lines = new ArrayList<>();
        double kept = Optional.ofNullable(tables.urgency().get(model.urgency()))
                .map(row -> row.get(stated.urgency()))
                .orElse(0.0);
        lines.add(new Line(
                "Urgency stated " + stated.urgency().word() + ", needed "
                        + model.urgency().word() + ": keeps " + percent(kept) + ".",
                "drill-urgency.csv " + model.urgency().word() + "/"
                        + stated.urgency().word(),
                List.of()));
        model.assessment().raisedFlags().stream().limit(3).forEach(flag -> flag.highest()
                .ifPresent(row -> lines.add(raised(flag, row))));
        double screened = screened(inquiry, walk);
        lines.add(
                Line.of("Red flags closed before deciding: " + percent(screened) + " of what the best order closes."));
        double screening = number("safety-screening");
        double factor = 1 - screening * (1 - screened);
        List<Inquiry.Step> early = inquiry.steps().stream()
                .filter(step -> !step.heldBackBy().isEmpty())
                .toList();
        for (Inquiry.Step step : early) {
            lines.add(new Line(
                    "Painful test " + step.finding() + " done while " + String.join(", ", step.heldBackBy())
                            + " held it back.",
                    "hold-back.csv",
                    List.of()));
        }
        factor -= number("safety-provocative") * early.size();
        double most = number("points-safety");
        return new Part(Kind.SAFETY, most * kept * Math.max(0, factor), most, lines);
    }

    static Line raised(Flag flag, Flag.Row row) {
        Optional<Reason> reason = row.reasons().stream().findFirst();
        String findings = reason.map(one -> String.join(
                        ", ",
                        one.findings().stream()
                                .map(read -> read.id() + " " + read.value())
                                .toList()))
                .orElse("");
        return new Line(
                flag.label() + " is raised (" + row.urgency().word() + ", " + row.within() + ") by " + findings + ".",
                reason.map(Reason::rule).orElse("") + " / " + row.id(),
                reason.map(Reason::sources).orElse(List.of()));
    }

    /** The part of the flags that the best order closes which is closed; 1 once an emergency is raised. */
    private static double screened(Inquiry inquiry, DrillMaster.Walk walk) {
        if (inquiry.assessment()
                .urgency()
                .filter(level -> level == Urgency.EMERGENCY)
                .isPresent()) {
            return 1;
        }
        Set<String> closable = new HashSet<>(inquiry.start().open());
        closable.removeAll(open(walk.inquiry()));
        if (closable.isEmpty()) {
            return 1;
        }
        Set<String> left = new HashSet<>(open(inquiry));
        left.retainAll(closable);
        return 1 - (double) left.size() / closable.size();
    }

    private static Set<String> open(Inquiry inquiry) {
        return Inquiry.Standing.of(inquiry.assessment()).open();
    }

    private Part differential(Commitment stated, ModelAnswer model) {
        Map<String, Double> reference = shares(model);
        Map<String, Double> whole = QuadraticScore.whole(stated.confidences(), reference.keySet());
        double distance = QuadraticScore.distance(whole, reference);
        double most = number("points-differential");
        List<Line> lines = new ArrayList<>();
        lines.add(new Line(
                String.format(
                        Locale.ROOT,
                        "Squared distance from what the answers support: %.3f; nothing is left at %.1f.",
                        distance,
                        number("quadratic-scale")),
                "drill-settings.csv quadratic-scale",
                List.of("brier1950", "gneiting2007")));
        int shown = (int) number("most-candidates");
        model.assessment().candidates().stream()
                .limit(shown)
                .forEach(candidate -> lines.add(supported(candidate, stated)));
        for (Map.Entry<String, Double> one : stated.confidences().entrySet()) {
            boolean listed = model.assessment().candidates().stream()
                    .limit(shown)
                    .anyMatch(candidate -> candidate.condition().equals(one.getKey()));
            if (!listed) {
                lines.add(Line.of(name(one.getKey()) + ": you said " + percent(one.getValue())
                        + ", the answers support "
                        + percent(reference.getOrDefault(one.getKey(), 0.0)) + "."));
            }
        }
        return new Part(Kind.DIFFERENTIAL, most * (1 - distance / number("quadratic-scale")), most, lines);
    }

    private static Line supported(CandidateResult candidate, Commitment stated) {
        Optional<CandidateResult.Weight> strongest = candidate.supporting().stream()
                .filter(CandidateResult.Weight::counted)
                .findFirst();
        return new Line(
                candidate.name() + ": you said "
                        + percent(stated.confidences().getOrDefault(candidate.condition(), 0.0))
                        + ", the answers support " + percent(candidate.share())
                        + strongest
                                .map(weight -> ", most of all by " + weight.finding()
                                        + (weight.present() ? " present" : " absent")
                                        + String.format(Locale.ROOT, " (ratio %.1f)", weight.ratio()))
                                .orElse("")
                        + ".",
                strongest
                        .map(weight -> "evidence.csv " + weight.finding() + "/" + candidate.condition() + " ("
                                + weight.basis().word() + ")")
                        .orElse(""),
                strongest.map(CandidateResult.Weight::sources).orElse(List.of()));
    }

    private static Map<String, Double> shares(ModelAnswer model) {
        Map<String, Double> shares = new LinkedHashMap<>();
        model.assessment().candidates().forEach(candidate -> shares.put(candidate.condition(), candidate.share()));
        return shares;
    }

    private Part rank(Commitment stated, ModelAnswer model) {
        double most = number("points-rank");
        CandidateResult leader = model.assessment().candidates().get(0);
        Double own = stated.confidences().get(leader.condition());
        if (own == null || own <= 0) {
            return new Part(Kind.RANK, 0, most, List.of(Line.of(leader.name() + " leads and is not on your list.")));
        }
        double above =
                stated.confidences().values().stream().filter(one -> one > own).count();
        double level = stated.confidences().values().stream()
                .filter(one -> one.equals(own))
                .count();
        double place = above + (level + 1) / 2;
        return new Part(
                Kind.RANK,
                most / place,
                most,
                List.of(Line.of(leader.name() + " leads; it is number "
                        + (place == Math.rint(place)
                                ? Long.toString((long) place)
                                : String.format(Locale.ROOT, "%.1f", place))
                        + " on your list.")));
    }

    /** What is still to be learned at this standing, 0 to 1, when this model answer is the end. */
    public double left(Inquiry.Standing standing, Inquiry.Standing start, ModelAnswer model) {
        double urgency = standing.urgency()
                        .map(level -> Math.abs(level.step() - model.urgency().step()))
                        .orElse(model.urgency().step())
                / (double) Urgency.EMERGENCY.step();
        double open = start.open().isEmpty()
                ? 0
                : (double) standing.open().size() / start.open().size();
        double moved = 0;
        Map<String, Double> shares = shares(model);
        for (Map.Entry<String, Double> share : shares.entrySet()) {
            moved += Math.abs(share.getValue() - standing.shares().getOrDefault(share.getKey(), 0.0));
        }
        return number("information-urgency") * urgency
                + number("information-flags") * open
                + number("information-candidates") * Math.min(1, moved / 2);
    }

    private Part efficiency(Inquiry inquiry, DrillMaster.Walk walk, ModelAnswer model) {
        double most = number("points-efficiency");
        Set<String> care = walk.care();
        List<Inquiry.Step> own = inquiry.steps().stream()
                .filter(step -> !care.contains(step.finding()))
                .toList();
        List<Inquiry.Step> best = walk.inquiry().steps().subList(0, walk.triage());
        double start = left(inquiry.start(), inquiry.start(), model);
        double gained =
                own.isEmpty() ? 0 : start - left(Inquiry.Standing.of(inquiry.assessment()), inquiry.start(), model);
        double possible = best.isEmpty()
                ? 0
                : start - left(Inquiry.Standing.of(walk.inquiry().assessment()), inquiry.start(), model);
        if (possible <= 0) {
            return new Part(Kind.EFFICIENCY, most, most, List.of(Line.of("There was nothing to learn by asking.")));
        }
        double coverage = Math.max(0, Math.min(1, gained / possible));
        int needed = best.size();
        if (coverage < 1 - number("information-enough")) {
            for (int i = 0; i < best.size(); i++) {
                if (start - left(best.get(i).after(), inquiry.start(), model) >= gained) {
                    needed = i + 1;
                    break;
                }
            }
        }
        double economy = own.isEmpty() ? 0 : Math.min(1, (double) needed / own.size());
        return new Part(
                Kind.EFFICIENCY,
                most * coverage * economy,
                most,
                List.of(
                        Line.of("You learned " + percent(coverage) + " of what the best order learns, in " + own.size()
                                + " questions; the best order needs " + needed + " for as much."),
                        Line.of("The whole best order has " + best.size() + " questions.")));
    }

    private String name(String condition) {
        Condition known = master.knowledge().conditions().get(condition);
        return known == null ? condition : known.name();
    }

    static String percent(double share) {
        return Math.round(share * 100) + " %";
    }

    private double number(String name) {
        return tables.settings().value(name);
    }
}
