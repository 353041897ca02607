package org.gerdy.cli.audit;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.gerdy.engine.audit.Against;
import org.gerdy.engine.audit.Audit;
import org.gerdy.engine.audit.Coverage;
import org.gerdy.engine.audit.Expected;
import org.gerdy.engine.audit.KnowledgeChange;
import org.gerdy.engine.audit.Mutant;
import org.gerdy.engine.audit.Mutation;
import org.gerdy.engine.audit.SafetyProof;

/** An audit as plain text: what is worst comes first. */
public final class TextReport {
    private static final int LISTED = 40;

    private final StringBuilder text = new StringBuilder();
    private final boolean everything;

    private TextReport(boolean everything) {
        this.everything = everything;
    }

    /** The report; {@code everything} lists each rule and each survivor. */
    public static String of(Report report, boolean everything) {
        TextReport page = new TextReport(everything);
        page.line("Audit of knowledge base " + report.knowledge().identity().version() + ", sha-256 "
                + report.knowledge().identity().sha256());
        page.line("");
        report.against().ifPresent(page::against);
        page.cases(report.audit());
        page.coverage(report.audit().coverage());
        report.mutation().ifPresent(page::mutation);
        report.proof().ifPresent(page::proof);
        page.line(report.sentence());
        return page.text.toString();
    }

    private void line(String line) {
        text.append(line).append('\n');
    }

    private void heading(String heading) {
        line(heading);
        line("-".repeat(heading.length()));
    }

    private void against(Against against) {
        List<Against.Changed> fell = against.fell();
        if (fell.isEmpty()) {
            heading("Urgency fell in no case");
        } else {
            heading("URGENCY FELL IN " + fell.size() + (fell.size() == 1 ? " CASE" : " CASES"));
            for (Against.Changed one : fell) {
                line("  " + one.auditCase().id() + ": from " + Expected.word(one.before()) + " to "
                        + Expected.word(one.after()) + causes(one));
            }
        }
        line("");
        heading("Urgency before and after");
        against.table().forEach((move, count) -> line(String.format(Locale.ROOT, "  %5d  %s", count, move)));
        line("");
        heading("What is not the same (" + against.changes().size() + ")");
        listed(against.changes()).forEach(change -> {
            line("  " + change.name() + ", " + change.kind().word());
            if (change.kind() == KnowledgeChange.Kind.CHANGED) {
                change.cells()
                        .forEach((column, cell) ->
                                line("      " + column + ": " + cell.before() + "  ->  " + cell.after()));
            }
        });
        more(against.changes().size());
        line("");
        heading("Conclusions that changed, by cause");
        if (against.byCause().isEmpty()) {
            line("  none");
        }
        against.byCause().forEach((cause, effects) -> {
            line("  " + cause + " (" + effects.size() + ")");
            listed(effects)
                    .forEach(effect -> line("      " + effect.caseId() + ": "
                            + effect.moved().conclusion() + ": "
                            + effect.moved().before() + "  ->  "
                            + effect.moved().after()));
            more(effects.size());
        });
        line("");
    }

    private static String causes(Against.Changed one) {
        List<String> causes = one.conclusions().stream()
                .filter(moved -> moved.conclusion().equals("urgency"))
                .flatMap(moved -> moved.causes().stream())
                .toList();
        return causes.isEmpty() ? "" : ", because of " + String.join(" or ", causes);
    }

    private <T> Stream<T> listed(List<T> all) {
        return all.stream().limit(everything ? Long.MAX_VALUE : LISTED);
    }

    private void more(int size) {
        if (!everything && size > LISTED) {
            line("      and " + (size - LISTED) + " more; --everything lists them");
        }
    }

    private void cases(Audit audit) {
        heading(audit.holds() ? "Every case gets what it expects" : "Cases that differ from what they expect");
        for (Audit.Result result : audit.differing()) {
            line("  " + result.auditCase().id() + " (" + result.auditCase().place() + ")");
            result.differences().forEach(difference -> line("      " + difference));
        }
        if (audit.silent() > 0) {
            line("  " + audit.silent() + " of " + audit.results().size() + " cases expect nothing and guard nothing.");
        }
        line("");
    }

    private void coverage(Coverage coverage) {
        heading("What the cases guard");
        guarded("rules", coverage.rules(), coverage.unguardedRules());
        guarded("red flag rows and referral thresholds", coverage.rows(), coverage.unguardedRows());
        guarded("readings of evidence rows", coverage.evidence(), coverage.unguardedEvidence());
        guarded(
                "items of scores and criteria of decision rules",
                coverage.instruments(),
                coverage.unguardedInstruments());
        if (!coverage.elsewhere().isEmpty()) {
            line("  Nothing is said of " + coverage.elsewhere().size()
                    + " rules that conclude something an assessment does not hold, such as a plan.");
        }
        if (everything) {
            coverage.rules().forEach(this::touched);
        }
        line("");
    }

    private void guarded(String what, Map<String, Coverage.Touched> all, List<String> unguarded) {
        line("  " + (all.size() - unguarded.size()) + " of " + all.size() + " " + what
                + " have a case that fires them and one that just misses.");
        listed(unguarded).forEach(id -> {
            Coverage.Touched touched = all.get(id);
            line("      " + id + ": "
                    + (touched == null || touched.fire().isEmpty() ? "no case fires it" : "no case just misses it"));
        });
        more(unguarded.size());
    }

    private void touched(String id, Coverage.Touched touched) {
        line("  " + id + ": fires in " + some(touched.fire())
                + (touched.followed() ? "; just missed by " + some(touched.justMiss()) : ""));
    }

    private static String some(List<String> ids) {
        return ids.isEmpty() ? "none" : ids.size() + " (" + String.join(", ", ids) + ")";
    }

    private void mutation(Mutation mutation) {
        heading("Single slips the cases would catch");
        mutation.scores().forEach((group, score) -> line("  " + score(score) + "  " + group.word()));
        line("  " + score(mutation.overall()) + "  all");
        if (!mutation.notCovered().isEmpty()) {
            line("  No slip was tried in " + mutation.notCovered().size()
                    + " rules that conclude something an assessment does not hold, such as a plan.");
        }
        List<Mutation.Outcome> survivors = mutation.survivors();
        line("  This could change and no case would notice (" + survivors.size() + "):");
        listed(survivors).forEach(outcome -> {
            Mutant mutant = outcome.mutant();
            line("      " + mutant.place() + ": " + mutant.change() + remark(outcome));
        });
        more(survivors.size());
        line("");
    }

    /** What else is known of a survivor, in brackets. */
    static String remark(Mutation.Outcome survivor) {
        if (survivor.cannotBeTold()) {
            return " (moves its red flag in none of " + survivor.alike() + " combinations of answers)";
        }
        return survivor.differed() > 0
                ? " (" + survivor.differed() + " cases come out differently and expect nothing of it)"
                : "";
    }

    private static String score(Mutation.Score score) {
        return String.format(Locale.ROOT, "%5.1f %% (%d of %d)", 100 * score.part(), score.caught(), score.tried());
    }

    private void proof(SafetyProof proof) {
        heading("Invariants, visited");
        proof.lines().forEach(one -> line("  " + one));
        line("");
    }
}
