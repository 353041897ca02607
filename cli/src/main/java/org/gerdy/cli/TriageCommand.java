package org.gerdy.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Prints the triage of one or more cases. */
@Command(
        name = "triage",
        mixinStandardHelpOptions = true,
        description = "Red flags, urgency, candidates, referral thresholds and cautions of a case, with reasons.",
        footer = {
            "",
            "Exit code 0 when every case was assessed, 1 when a case has errors.",
            "",
            "Examples:",
            "  gerdy triage cases/demo/first-visit.yaml",
            "  gerdy triage --format json - < case.yaml"
        })
final class TriageCommand implements Callable<Integer> {
    enum Format {
        text,
        json
    }

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "Case files, YAML or JSON; - is standard input.")
    private List<String> files = new ArrayList<>();

    @Option(names = "--format", description = "text (the default) or json; several cases make a JSON array.")
    private Format format = Format.text;

    @Option(names = "--visit", paramLabel = "DATE", description = "Which visit, as 2026-03-02; the latest by default.")
    private @Nullable LocalDate visit;

    @Mixin
    private KnowledgeOption knowledge = new KnowledgeOption();

    @Spec
    private CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        Gerdy gerdy = knowledge.gerdy();
        int code = 0;
        List<Assessment> assessments = new ArrayList<>();
        List<CaseFile> cases = new ArrayList<>();
        for (String file : files) {
            try {
                CaseFile caseFile = Cases.read(gerdy, file);
                assessments.add(gerdy.assess(caseFile, Cases.visit(caseFile, file, Optional.ofNullable(visit))));
                cases.add(caseFile);
            } catch (MendableException e) {
                e.problems().forEach(err::println);
                code = 1;
            }
        }
        print(out, gerdy, cases, assessments);
        return code;
    }

    private void print(PrintWriter out, Gerdy gerdy, List<CaseFile> cases, List<Assessment> assessments) {
        if (format == Format.json) {
            if (files.size() == 1) {
                assessments.forEach(assessment -> out.print(AssessmentJson.pretty(assessment)));
            } else {
                out.println("[");
                for (int i = 0; i < assessments.size(); i++) {
                    out.print(AssessmentJson.pretty(assessments.get(i)).stripTrailing());
                    out.println(i + 1 < assessments.size() ? "," : "");
                }
                out.println("]");
            }
            return;
        }
        Summary summary = new Summary(gerdy.knowledge());
        for (int i = 0; i < assessments.size(); i++) {
            if (i > 0) {
                out.println();
                out.println("=".repeat(Page.WIDTH));
                out.println();
            }
            out.print(summary.of(assessments.get(i), cases.get(i)));
        }
    }
}
