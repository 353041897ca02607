package org.gerdy.cli.drill;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.gerdy.cli.Page;
import org.gerdy.engine.drill.DrillScore;
import org.gerdy.engine.drill.Inquiry;
import org.gerdy.engine.drill.Marker;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Source;

/** A mark as a page: each part with its reasons, what should have changed the mind, both paths side by side. */
final class Verdict {
    private static final Map<DrillScore.Kind, String> NAMES = Map.of(
            DrillScore.Kind.SAFETY, "Safety",
            DrillScore.Kind.DIFFERENTIAL, "Differential",
            DrillScore.Kind.RANK, "Rank of the leading candidate",
            DrillScore.Kind.EFFICIENCY, "Efficiency",
            DrillScore.Kind.FACTORS, "Contributing factors",
            DrillScore.Kind.PLAN, "Plan",
            DrillScore.Kind.SETTLE, "What would settle it");
    private static final int COLUMN = 36;

    private final KnowledgeBase knowledge;
    private final Marker marker;

    Verdict(KnowledgeBase knowledge, Marker marker) {
        this.knowledge = knowledge;
        this.marker = marker;
    }

    String text(Inquiry inquiry, Marker.Marked marked) {
        DrillScore score = marked.score();
        Page page = new Page();
        page.heading(String.format(Locale.ROOT, "Score: %.0f of 100", score.total()));
        if (score.dangerous()) {
            page.hanging(
                    "",
                    score.underTriaged()
                            ? "This case must not wait, and the urgency stated lets it wait."
                            : "This case must not wait.");
        }
        Set<String> sources = new LinkedHashSet<>();
        for (DrillScore.Part part : score.parts()) {
            page.blank();
            page.line(
                    String.format(Locale.ROOT, "%s: %.1f of %.0f", NAMES.get(part.kind()), part.points(), part.most()));
            part.lines().forEach(line -> line(page, line, sources));
        }
        score.changing().ifPresent(line -> {
            page.heading("What should have changed your mind");
            line(page, line, sources);
        });
        paths(page, inquiry, marked);
        made(page, inquiry);
        if (!sources.isEmpty()) {
            page.heading("Sources");
            sources.forEach(key -> page.hanging("  " + key + "  ", 4, cited(key)));
        }
        page.blank();
        page.hanging(
                "",
                "The mark holds the work to the rules and weights of this knowledge base, most of them judgement. It is"
                        + " practice and no proof of competence.");
        return page.toString();
    }

    private static void line(Page page, DrillScore.Line line, Set<String> sources) {
        String origin = line.rule().isEmpty() && line.sources().isEmpty()
                ? ""
                : " [" + line.rule() + (line.sources().isEmpty() ? "" : "; " + String.join(", ", line.sources())) + "]";
        page.hanging("  - ", line.text() + origin);
        sources.addAll(line.sources());
    }

    private void paths(Page page, Inquiry inquiry, Marker.Marked marked) {
        page.heading("Your path beside the most informative path");
        page.hanging("", "The percentage is what is still to be learned after the question.");
        List<String> own = steps(inquiry, inquiry.steps(), marked);
        List<String> best = steps(inquiry, marked.walk().inquiry().steps(), marked);
        page.line(String.format(Locale.ROOT, "    %-" + COLUMN + "s  %s", "yours", "most informative"));
        for (int i = 0; i < Math.max(own.size(), best.size()); i++) {
            page.line(String.format(
                    Locale.ROOT,
                    "%3d %-" + COLUMN + "s  %s",
                    i + 1,
                    i < own.size() ? own.get(i) : "",
                    i < best.size() ? best.get(i) : ""));
        }
    }

    private List<String> steps(Inquiry inquiry, List<Inquiry.Step> steps, Marker.Marked marked) {
        List<String> lines = new ArrayList<>();
        for (Inquiry.Step step : steps) {
            String left = Math.round(100 * marker.left(step.after(), inquiry.start(), marked.model())) + "%";
            String sign = step.heldBackBy().isEmpty() ? "" : " early";
            String name = step.finding() + sign;
            int room = COLUMN - 5;
            lines.add(String.format(
                    Locale.ROOT, "%-" + room + "s %4s", name.length() > room ? name.substring(0, room) : name, left));
        }
        return lines;
    }

    private void made(Page page, Inquiry inquiry) {
        page.heading("The patient");
        List<String> names = inquiry.patient().causes().stream()
                .map(id -> knowledge.conditions().containsKey(id)
                        ? knowledge.condition(id).name()
                        : id)
                .toList();
        page.hanging(
                "",
                (inquiry.patient().seed().isPresent()
                        ? "Made from: " + String.join(" and ", names) + " ("
                                + inquiry.patient().difficulty() + "). 'gerdy drill --case "
                                + inquiry.patient().id() + "' makes the same patient again."
                        : names.isEmpty()
                                ? "From a case file; its cause is not recorded."
                                : "From a case file; it expects " + String.join(" or ", names) + "."));
    }

    private String cited(String key) {
        Source source = knowledge.bibliography().get(key);
        return source == null ? "not in the bibliography" : source.citation() + " Basis: " + source.basis() + ".";
    }
}
