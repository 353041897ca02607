package org.gerdy.cli;

import java.io.PrintWriter;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
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
    @Mixin
    private VisitOption visit = new VisitOption();

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "CONCLUSION",
            description = "A red flag, one of its rows, a condition, a referral threshold, a contributing factor or a"
                    + " plan item, by id.")
    private @Nullable String conclusion;

    @Spec
    private CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = spec.commandLine().getOut();
        VisitOption.Chosen chosen = visit.choose();
        KnowledgeBase knowledge = chosen.gerdy().knowledge();
        Assessment assessment = chosen.gerdy().assess(chosen.caseFile(), chosen.visit());
        Explanation explanation = new Explanation(knowledge, assessment, chosen.observations());
        String wanted = conclusion;
        if (wanted == null) {
            out.print(explanation.all());
            return 0;
        }
        Optional<String> page = explanation
                .of(wanted)
                .or(() -> new PlanExplanation(knowledge, chosen.look().result().aftercare()).of(wanted));
        if (page.isEmpty()) {
            spec.commandLine().getErr().println(explanation.unknown(wanted));
            return 1;
        }
        out.print(page.get());
        return 0;
    }
}
