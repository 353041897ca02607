package org.gerdy.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gerdy.cli.document.CareDocuments;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.rules.LateralKnee;

/**
 * The triage of case files as text. Named with files alone it is what most starts are for, and reading the options of a
 * command by reflection takes longer than all of it; so {@link Main} takes this way where there are no options to read.
 */
final class TriageText {
    private TriageText() {}

    /** Whether these arguments name the triage and files and nothing else. */
    static boolean isAllOf(String... args) {
        return args.length > 1
                && args[0].equals("triage")
                && Stream.of(args).noneMatch(arg -> arg.isEmpty() || arg.startsWith("-") || arg.startsWith("@"));
    }

    /** Prints the triage of these files by the shipped knowledge base. The exit code is as {@code gerdy triage} gives it. */
    static int print(List<String> files, PrintWriter out, PrintWriter err) {
        Gerdy gerdy = LateralKnee.gerdy();
        List<VisitOption.Looked> all = new ArrayList<>();
        int code = look(gerdy, files, Optional.empty(), all, err);
        out.print(of(all, new CareDocuments(gerdy)));
        return code;
    }

    /** Works out the visits of these files into {@code all}. 1 when a file has errors, each of which is told; else 0. */
    static int look(
            Gerdy gerdy, List<String> files, Optional<LocalDate> visit, List<VisitOption.Looked> all, PrintWriter err) {
        int code = 0;
        for (String file : files) {
            try {
                all.add(VisitOption.choose(gerdy, file, visit).look());
            } catch (MendableException e) {
                e.problems().forEach(err::println);
                code = 1;
            }
        }
        return code;
    }

    /** The summaries, one under the other. */
    static String of(List<VisitOption.Looked> all, CareDocuments documents) {
        StringBuilder text = new StringBuilder();
        for (VisitOption.Looked one : all) {
            if (!text.isEmpty()) {
                text.append('\n').append("=".repeat(Page.WIDTH)).append("\n\n");
            }
            text.append(new Summary(one.gerdy().knowledge())
                    .of(one.result().assessment(), one.caseFile(), documents.afterTriage(one.result())));
        }
        return text.toString();
    }
}
