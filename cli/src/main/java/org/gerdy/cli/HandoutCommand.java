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

/** Prints the patient's handout. */
@Command(
        name = "handout",
        mixinStandardHelpOptions = true,
        description = "What the patient takes home, in plain words, with drawings of each exercise.",
        footer = {
            "",
            "Examples:",
            "  gerdy handout cases/demo/first-visit.yaml",
            "  gerdy handout cases/demo/review.yaml --format pdf --paper letter --out handout.pdf"
        })
final class HandoutCommand implements Callable<Integer> {
    @Mixin
    private VisitOption visit = new VisitOption();

    @Option(names = "--format", description = "text (the default), html or pdf.")
    private Delivery.Sheet format = Delivery.Sheet.text;

    @Mixin
    private Delivery delivery = new Delivery();

    @Spec
    private CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = spec.commandLine().getOut();
        VisitOption.Looked looked = visit.look();
        Document document = new CareDocuments(looked.gerdy()).handout(looked.result());
        delivery.write(format, document, out);
        return 0;
    }
}
