package org.gerdy.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import org.gerdy.cli.document.CareDocuments;
import org.gerdy.cli.document.Document;
import org.gerdy.engine.casefile.MendableException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Prints the plan of a visit. */
@Command(
        name = "plan",
        mixinStandardHelpOptions = true,
        description =
                "What to do now: plan items with doses and stop rules, dated runs, the next look. Above routine referral interim advice only.",
        footer = {
            "",
            "Examples:",
            "  gerdy plan cases/demo/first-visit.yaml",
            "  gerdy plan cases/demo/review.yaml --format pdf --out plan.pdf"
        })
final class PlanCommand implements Callable<Integer> {
    @Mixin
    private VisitOption visit = new VisitOption();

    @Option(names = "--format", description = "text (the default), json, html or pdf.")
    private Delivery.Format format = Delivery.Format.text;

    @Mixin
    private Delivery delivery = new Delivery();

    @Spec
    private CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = spec.commandLine().getOut();
        VisitOption.Looked looked = visit.look();
        Document document = new CareDocuments(looked.gerdy()).plan(looked.result());
        delivery.write(format, document, looked.result(), out);
        return 0;
    }
}
