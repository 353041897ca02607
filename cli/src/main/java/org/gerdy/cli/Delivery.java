package org.gerdy.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.gerdy.cli.document.Document;
import org.gerdy.cli.document.Pdf;
import org.gerdy.cli.document.Rendering;
import org.gerdy.engine.care.VisitJson;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.Disk;
import org.gerdy.engine.casefile.MendableException;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** How a document leaves the program: on what paper, to which file. */
final class Delivery {
    /** Forms of a result, for people or for programs. */
    enum Format {
        text,
        json,
        html,
        pdf
    }

    /** Forms of what only people read. */
    enum Sheet {
        text,
        html,
        pdf
    }

    enum Paper {
        a4,
        letter;

        /** The word style sheets use. */
        String css() {
            return this == a4 ? "A4" : "letter";
        }
    }

    @Option(names = "--paper", description = "Paper of a PDF: a4 (the default) or letter.")
    private Paper paper = Paper.a4;

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FILE",
            description = "Write here; the file is replaced whole or not at all. - is standard output.")
    private @Nullable Path target;

    /** The file asked for; empty for standard output. */
    Optional<Path> target() {
        return Optional.ofNullable(target).filter(path -> !path.toString().equals(Cases.STANDARD_INPUT));
    }

    /** Writes a visit: its document for people, all of it for programs. */
    void write(Format format, Document document, VisitResult result, PrintWriter out) throws MendableException {
        switch (format) {
            case text -> write(Sheet.text, document, out);
            case json -> text(VisitJson.pretty(result), out);
            case html -> write(Sheet.html, document, out);
            case pdf -> write(Sheet.pdf, document, out);
        }
    }

    /** Writes a document. */
    void write(Sheet sheet, Document document, PrintWriter out) throws MendableException {
        switch (sheet) {
            case text -> text(Rendering.text(document), out);
            case html -> text(Rendering.html(document, ""), out);
            case pdf -> pdf(document, out);
        }
    }

    /** Writes text. */
    void text(String text, PrintWriter out) throws MendableException {
        if (target == null || target.toString().equals(Cases.STANDARD_INPUT)) {
            out.print(text);
        } else {
            save(text.getBytes(StandardCharsets.UTF_8));
        }
    }

    private void pdf(Document document, PrintWriter out) throws MendableException {
        byte[] pdf = Pdf.of(Rendering.html(document, paper.css()));
        if (target == null) {
            throw new MendableException(
                    "--out", "A PDF is not for the screen; name a file with --out, or - for standard output.");
        }
        if (target.toString().equals(Cases.STANDARD_INPUT)) {
            out.flush();
            System.out.write(pdf, 0, pdf.length);
            System.out.flush();
        } else {
            save(pdf);
        }
    }

    private void save(byte[] bytes) throws MendableException {
        Path file = target == null ? Path.of("") : target.toAbsolutePath();
        try {
            Disk.SHARED.replace(file, bytes);
        } catch (IOException e) {
            throw new MendableException(file.toString(), "The file could not be written: " + e.getMessage() + ".");
        }
    }
}
