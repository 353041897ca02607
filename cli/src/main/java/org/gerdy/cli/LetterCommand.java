package org.gerdy.cli;

import java.io.PrintWriter;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gerdy.cli.document.CareDocuments;
import org.gerdy.cli.document.Document;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.vocabulary.Catalogue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Prints a referral letter. */
@Command(
        name = "letter",
        mixinStandardHelpOptions = true,
        description = {
            "A referral letter: situation, background, assessment, request; what was found, what was not tested, why now.",
            "It holds no name: what identifies is left blank, to be filled in by hand."
        },
        footer = {
            "",
            "Examples:",
            "  gerdy letter cases/demo/first-visit.yaml --to orthopaedics",
            "  gerdy letter case.yaml --to emergency --format pdf --out letter.pdf"
        })
final class LetterCommand implements Callable<Integer> {
    @Mixin
    private VisitOption visit = new VisitOption();

    @Option(
            names = "--to",
            paramLabel = "SERVICE",
            required = true,
            description =
                    "Whom it goes to, such as orthopaedics, emergency or usual-doctor; a wrong word lists them all.")
    private String to = "";

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
        CareDocuments documents = new CareDocuments(looked.gerdy());
        Map<String, String> recipients = documents.recipients();
        String label = recipients.get(to);
        if (label == null) {
            spec.commandLine()
                    .getErr()
                    .println("There is no service '" + to + "'; "
                            + Catalogue.nearest(to, recipients.keySet())
                                    .map(nearest -> "did you mean '" + nearest + "'? ")
                                    .orElse("")
                            + "Known: " + String.join(", ", recipients.keySet()) + ".");
            return 2;
        }
        Document document = documents.letter(looked.result(), looked.caseFile(), looked.observations(), label);
        delivery.write(format, document, out);
        return 0;
    }
}
