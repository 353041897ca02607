package org.gerdy.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gerdy.cli.document.CareDocuments;
import org.gerdy.cli.document.Document;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.care.VisitJson;
import org.gerdy.engine.casefile.MendableException;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

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
            "  gerdy triage --format json - < case.yaml",
            "  gerdy triage cases/demo/first-visit.yaml --format pdf --out summary.pdf",
            "  gerdy triage --batch cases.jsonl --out assessments.jsonl --resume"
        })
final class TriageCommand extends KnowledgeCommand {
    @Parameters(paramLabel = "FILE", arity = "0..*", description = "Case files, YAML or JSON; - is standard input.")
    private List<String> files = new ArrayList<>();

    @Option(names = "--format", description = "text (the default), json, html or pdf; several cases make a JSON array.")
    private Delivery.Format format = Delivery.Format.text;

    @Option(names = "--visit", paramLabel = "DATE", description = "Which visit, as 2026-03-02; the latest by default.")
    private @Nullable LocalDate visit;

    @Option(
            names = "--batch",
            description = "Cases as JSON lines in, assessments as JSON lines out, in order, on all cores.")
    private boolean batch;

    @Option(names = "--resume", description = "With --batch and --out: go on after the last whole record of that file.")
    private boolean resume;

    @Mixin
    private Delivery delivery = new Delivery();

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = out();
        PrintWriter err = err();
        if (batch) {
            return batch(err);
        }
        if (files.isEmpty()) {
            err.println("Name at least one case file; see 'gerdy triage --help'.");
            return 2;
        }
        Gerdy gerdy = gerdy();
        if (files.size() > 1 && (format == Delivery.Format.html || format == Delivery.Format.pdf)) {
            err.println("An HTML page or a PDF holds one case; name one file.");
            return 2;
        }
        List<VisitOption.Looked> all = new ArrayList<>();
        int code = TriageText.look(gerdy, files, Optional.ofNullable(visit), all, err);
        CareDocuments documents = new CareDocuments(gerdy);
        switch (format) {
            case text -> delivery.text(TriageText.of(all, documents), out);
            case json -> delivery.text(json(all), out);
            case html, pdf -> {
                for (VisitOption.Looked one : all) {
                    Document document = documents.summary(one.result(), one.observations());
                    delivery.write(format, document, one.result(), out);
                }
            }
        }
        return code;
    }

    /** Error records do not stop a batch; they show in its exit code. */
    private int batch(PrintWriter err) throws MendableException {
        if (files.size() > 1 || visit != null || (resume && delivery.target().isEmpty())) {
            err.println("A batch reads one file or standard input, each case at its latest visit;"
                    + " --resume needs the --out file of the earlier run.");
            return 2;
        }
        String name = files.isEmpty() ? Cases.STANDARD_INPUT : files.get(0);
        boolean standard = name.equals(Cases.STANDARD_INPUT);
        Gerdy gerdy = gerdy();
        Path target = delivery.target().orElse(null);
        long skip = resume && target != null
                ? BatchOutput.resume(target, gerdy.knowledge().identity().sha256())
                : 0;
        BatchTriage triage = new BatchTriage(
                gerdy, standard ? "standard input" : name, Runtime.getRuntime().availableProcessors());
        try (InputStream in = standard ? Cases.standardInput() : Files.newInputStream(Cases.path(name));
                OutputStream stream = target == null
                        ? new WriterStream(out())
                        : Files.newOutputStream(
                                target,
                                StandardOpenOption.CREATE,
                                StandardOpenOption.WRITE,
                                resume ? StandardOpenOption.APPEND : StandardOpenOption.TRUNCATE_EXISTING)) {
            BatchTriage.Count count = triage.run(in, stream, skip, Bars.besideResults(target != null));
            err.println(count.lines() + " lines answered, " + count.errors() + " with an error record"
                    + (skip > 0 ? "; " + skip + " were there before." : "."));
            return count.errors() > 0 ? 1 : 0;
        } catch (IOException e) {
            throw new MendableException(
                    name, "The batch stopped: " + e.getMessage() + ". --resume goes on from there.");
        }
    }

    private String json(List<VisitOption.Looked> all) {
        List<String> each =
                all.stream().map(one -> VisitJson.pretty(one.result())).toList();
        return files.size() == 1
                ? String.join("", each)
                : "[\n"
                        + String.join(
                                ",\n", each.stream().map(String::stripTrailing).toList())
                        + (each.isEmpty() ? "" : "\n") + "]\n";
    }
}
