package org.gerdy.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows which findings led to a conclusion, through which rule, by which source. */
@Command(
        name = "explain",
        mixinStandardHelpOptions = true,
        description =
                "Why a red flag is raised, open or cleared; why a condition ranks where it does; why a factor counts.",
        footer = {
            "",
            "Without a conclusion: every raised and open flag, leading candidate and factor that counts.",
            "",
            "Examples:",
            "  gerdy explain cases/demo/first-visit.yaml",
            "  gerdy explain cases/demo/first-visit.yaml possible-fracture"
        })
final class ExplainCommand implements Callable<Integer> {
    @Parameters(index = "0", paramLabel = "FILE", description = "A case file; - is standard input.")
    private String file = "";

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "CONCLUSION",
            description = "A red flag, one of its rows, a condition, a referral threshold, a contributing factor or a"
                    + " plan item, by id.")
    private @Nullable String conclusion;

    @Option(names = "--visit", paramLabel = "DATE", description = "Which visit, as 2026-03-02; the latest by default.")
    private @Nullable LocalDate visit;

    @Mixin
    private KnowledgeOption knowledge = new KnowledgeOption();

    @Spec
    private CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = spec.commandLine().getOut();
        Gerdy gerdy = knowledge.gerdy();
        CaseFile caseFile = Cases.read(gerdy, file);
        Visit chosen = Cases.visit(caseFile, file, Optional.ofNullable(visit));
        Assessment assessment = gerdy.assess(caseFile, chosen);
        Observations observations = Observations.of(gerdy.knowledge().catalogue(), caseFile, chosen);
        Explanation explanation = new Explanation(gerdy.knowledge(), assessment, observations);
        String wanted = conclusion;
        if (wanted == null) {
            out.print(explanation.all());
            return 0;
        }
        Optional<String> page = explanation.of(wanted).or(() -> new PlanExplanation(
                        gerdy.knowledge(), gerdy.visit(caseFile, chosen).aftercare())
                .of(wanted));
        if (page.isEmpty()) {
            spec.commandLine().getErr().println(explanation.unknown(wanted));
            return 1;
        }
        out.print(page.get());
        return 0;
    }
}
