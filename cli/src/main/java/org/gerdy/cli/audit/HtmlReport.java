package org.gerdy.cli.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.gerdy.engine.audit.Against;
import org.gerdy.engine.audit.Audit;
import org.gerdy.engine.audit.Coverage;
import org.gerdy.engine.audit.Difference;
import org.gerdy.engine.audit.Expected;
import org.gerdy.engine.audit.Mutation;

/** An audit as a page to read or print. */
public final class HtmlReport {
    private static final int NAMED = 6;

    private HtmlReport() {}

    /** The page. */
    public static String of(Report report) {
        Html page = new Html(
                "Audit of knowledge base " + report.knowledge().identity().version());
        page.paragraph("sha-256 " + report.knowledge().identity().sha256());
        page.paragraph(report.sentence());
        report.against().ifPresent(against -> against(page, against));
        cases(page, report.audit());
        report.mutation().ifPresent(mutation -> mutation(page, mutation));
        report.proof().ifPresent(proof -> {
            page.heading("Invariants, visited");
            proof.lines().forEach(page::paragraph);
        });
        coverage(page, report.audit().coverage());
        return page.toString();
    }

    private static void against(Html page, Against against) {
        List<Against.Changed> fell = against.fell();
        page.heading("Against another knowledge base");
        page.paragraph("sha-256 " + against.before().sha256());
        if (fell.isEmpty()) {
            page.paragraph("Urgency fell in no case.");
        } else {
            page.loud("URGENCY FELL IN " + fell.size() + (fell.size() == 1 ? " CASE" : " CASES"));
            page.table(
                    "Cases whose urgency fell",
                    List.of("Case", "Before", "After", "What changed"),
                    fell.stream()
                            .map(one -> List.of(
                                    one.auditCase().id(),
                                    Expected.word(one.before()),
                                    Expected.word(one.after()),
                                    moved(one)))
                            .toList());
        }
        page.table(
                "Urgency before and after",
                List.of("Before and after", "Cases"),
                against.table().entrySet().stream()
                        .map(entry -> List.of(entry.getKey(), entry.getValue().toString()))
                        .toList());
        List<List<String>> changes = new ArrayList<>();
        against.changes()
                .forEach(change -> changes.add(List.of(
                        change.name(),
                        change.kind().word(),
                        String.join(
                                "; ",
                                change.cells().entrySet().stream()
                                        .map(cell -> cell.getKey() + ": "
                                                + cell.getValue().before() + " -> "
                                                + cell.getValue().after())
                                        .toList()))));
        page.table("What is not the same", List.of("Rule or row", "How", "Before and after"), changes);
        List<List<String>> effects = new ArrayList<>();
        against.byCause()
                .forEach((cause, all) -> all.forEach(effect -> effects.add(List.of(
                        cause,
                        effect.caseId(),
                        effect.moved().conclusion(),
                        effect.moved().before() + " -> " + effect.moved().after()))));
        page.table("Conclusions that changed, by cause", List.of("Cause", "Case", "Conclusion", "Change"), effects);
    }

    private static String moved(Against.Changed one) {
        return String.join(
                "; ",
                one.conclusions().stream()
                        .filter(moved -> moved.conclusion().startsWith("row")
                                || moved.conclusion().equals("urgency"))
                        .map(moved -> moved.conclusion() + " by "
                                + (moved.causes().isEmpty() ? Against.TOGETHER : String.join(" or ", moved.causes())))
                        .toList());
    }

    private static void cases(Html page, Audit audit) {
        page.heading("Cases");
        if (audit.holds()) {
            page.paragraph("Every case gets what it expects.");
        } else {
            page.table(
                    "Cases that differ from what they expect",
                    List.of("Case", "Title", "Difference"),
                    audit.differing().stream()
                            .map(result -> List.of(
                                    result.auditCase().id(),
                                    result.auditCase().caseFile().title(),
                                    String.join(
                                            "; ",
                                            result.differences().stream()
                                                    .map(Difference::toString)
                                                    .toList())))
                            .toList());
        }
    }

    private static void mutation(Html page, Mutation mutation) {
        page.heading("Single slips the cases would catch");
        List<Html.Bar> bars = new ArrayList<>();
        mutation.scores().forEach((group, score) -> bars.add(bar(group.word(), score)));
        bars.add(bar("all", mutation.overall()));
        page.bars("Part of slips caught", bars);
        page.table(
                "This could change and no case would notice",
                List.of("Rule or row", "Slip"),
                mutation.survivors().stream()
                        .map(outcome -> List.of(
                                outcome.mutant().place(), outcome.mutant().change() + TextReport.remark(outcome)))
                        .toList());
    }

    private static Html.Bar bar(String name, Mutation.Score score) {
        return new Html.Bar(
                name,
                score.part(),
                String.format(Locale.ROOT, "%.1f %% (%d of %d)", 100 * score.part(), score.caught(), score.tried()));
    }

    private static void coverage(Html page, Coverage coverage) {
        page.heading("What the cases guard");
        page.bars(
                "Guarded",
                List.of(
                        guarded("rules", coverage.rules(), coverage.unguardedRules()),
                        guarded("rows and thresholds", coverage.rows(), coverage.unguardedRows()),
                        guarded("readings of evidence", coverage.evidence(), coverage.unguardedEvidence()),
                        guarded("scores and decision rules", coverage.instruments(), coverage.unguardedInstruments())));
        page.table(
                "Rule by rule",
                List.of("Rule", "Cases that fire it", "Cases that just miss it"),
                rows(coverage.rules()));
        page.table(
                "Row by row", List.of("Row", "Cases that fire it", "Cases that just miss it"), rows(coverage.rows()));
    }

    private static Html.Bar guarded(String name, Map<String, Coverage.Touched> all, List<String> unguarded) {
        int held = all.size() - unguarded.size();
        return new Html.Bar(name, all.isEmpty() ? 1 : (double) held / all.size(), held + " of " + all.size());
    }

    private static List<List<String>> rows(Map<String, Coverage.Touched> all) {
        List<List<String>> rows = new ArrayList<>();
        all.forEach((id, touched) -> rows.add(
                List.of(id, some(touched.fire()), touched.followed() ? some(touched.justMiss()) : "cannot be told")));
        return rows;
    }

    /** How many cases, and the first of them; the JSON report names them all. */
    private static String some(List<String> ids) {
        if (ids.isEmpty()) {
            return "none";
        }
        String first = String.join(", ", ids.subList(0, Math.min(ids.size(), NAMED)));
        return ids.size() + ": " + first + (ids.size() > NAMED ? ", ..." : "");
    }
}
