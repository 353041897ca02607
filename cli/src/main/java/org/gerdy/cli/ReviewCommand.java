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

/** Prints what the scores over the visits come to. */
@Command(
        name = "review",
        mixinStandardHelpOptions = true,
        description = {
            "Scores over the visits against measurement error and the change that matters; thresholds for doing something else.",
            "The red flags are asked again at each visit: what was not asked today is open."
        },
        footer = {
            "",
            "Examples:",
            "  gerdy review cases/demo/review.yaml",
            "  gerdy review cases/demo/review.yaml --visit 2026-10-12"
        })
final class ReviewCommand implements Callable<Integer> {
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
        if (looked.result().aftercare().review().isEmpty()) {
            throw new MendableException(
                    visit.file(),
                    "A review needs a visit before the one of "
                            + looked.chosen().visit().date()
                            + "; this is the first. 'gerdy plan' shows when to look again.");
        }
        Document document = new CareDocuments(looked.gerdy()).review(looked.result());
        delivery.write(format, document, looked.result(), out);
        return 0;
    }
}
