package org.gerdy.cli.intake;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gerdy.cli.Cases;
import org.gerdy.cli.KnowledgeCommand;
import org.gerdy.cli.Page;
import org.gerdy.cli.intake.Screen.Entry;
import org.gerdy.cli.intake.Screen.Paragraph;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseStore;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.intake.IntakeSession;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Walks the clinician through the questions and keeps each answer as it is given. */
@Command(
        name = "intake",
        mixinStandardHelpOptions = true,
        description = {
            "Walk the questions of a visit: danger first, then whatever changes the picture most.",
            "Each answer is on the disk before the next question shows; start again with the same file to go on."
        },
        footer = {
            "",
            "On a terminal one key answers; h shows the keys. Otherwise, and with --plain, the same questions come as",
            "plain lines and answers are read as lines: y, n, unable, a number, a choice, or 'finding answer'.",
            "",
            "Exit code 0 when the intake ended or stopped with all answers kept, 1 when something could not be kept",
            "or, with --script, a line meant nothing.",
            "",
            "Examples:",
            "  gerdy intake new-runner.yaml",
            "  gerdy intake new-runner.yaml --side left --script answers.txt"
        })
public final class IntakeCommand extends KnowledgeCommand {
    @Parameters(
            index = "0",
            arity = "0..1",
            paramLabel = "FILE",
            description = "The case file, there or to be made; by default a new one in this directory.")
    private @Nullable String file;

    @Option(
            names = "--side",
            paramLabel = "SIDE",
            description = "Which side hurts, for a new visit: left, right, both.")
    private @Nullable Side side;

    @Option(names = "--visit", paramLabel = "DATE", description = "Go on with the visit of this day, or begin one.")
    private @Nullable LocalDate date;

    @Option(names = "--new-visit", description = "Begin a visit today in a case that is there.")
    private boolean newVisit;

    @Option(names = "--plain", description = "Plain lines even on a terminal, for screen readers.")
    private boolean plain;

    @Option(names = "--script", paramLabel = "FILE", description = "Read the answers from a recorded intake.")
    private @Nullable Path script;

    @Option(names = "--record", paramLabel = "FILE", description = "Add each answer to this file, to be replayed.")
    private @Nullable Path record;

    @Override
    public Integer call() throws MendableException {
        Path path = Cases.path(file == null ? free() : file);
        Gerdy gerdy = gerdy();
        try (CaseStore store = CaseStore.open(path, gerdy.reader())) {
            Ended ended = shown(gerdy, store);
            told(ended, store);
            return ended.code();
        } catch (IOException e) {
            throw new MendableException(path.toString(), "The intake could not be shown: " + e.getMessage() + ".");
        }
    }

    /** However the program ends, the terminal is given back. */
    private Ended shown(Gerdy gerdy, CaseStore store) throws IOException, MendableException {
        try (Front front = front()) {
            Runtime.getRuntime().addShutdownHook(new Thread(front::close));
            return run(gerdy, store, front);
        }
    }

    /** How an intake ended. */
    private record Ended(int code, List<String> lines) {}

    private Ended run(Gerdy gerdy, CaseStore store, Front front) throws MendableException {
        LocalDate day = day(store.caseFile());
        Optional<CaseFile> begun = begin(store, day, front);
        if (begun.isEmpty()) {
            return new Ended(0, List.of("Nothing was recorded."));
        }
        CaseFile caseFile = begun.get();
        try (IntakeSession session = new IntakeSession(gerdy, caseFile, day)) {
            Desk desk = new Desk(session, store, front instanceof LineFront, recorder());
            desk.resume(store.progress());
            while (!desk.closed()) {
                Optional<String> typed = front.ask(desk.screen());
                if (typed.isEmpty()) {
                    break;
                }
                desk.take(typed.get());
                front.tell(desk.message(), desk.understood());
            }
            return ended(session, desk, front);
        }
    }

    private static Ended ended(IntakeSession session, Desk desk, Front front) {
        List<String> lines = new ArrayList<>();
        if (!desk.message().isEmpty() && !(front instanceof LineFront)) {
            lines.add(desk.message());
        }
        int answers = session.observations().recorded().size();
        lines.add(answers + (answers == 1 ? " answer. " : " answers. ") + Views.standing(session.assessment()));
        int code = 0;
        if (desk.unsaved().isPresent()) {
            lines.add("Not on the disk: " + desk.unsaved().get() + ".");
            code = 1;
        }
        if (front instanceof LineFront line && line.misunderstood() > 0) {
            lines.add(line.misunderstood() + (line.misunderstood() == 1 ? " line" : " lines") + " meant nothing.");
            code = Math.max(code, line.echoes() ? 1 : 0);
        }
        return new Ended(code, lines);
    }

    private void told(Ended ended, CaseStore store) {
        PrintWriter out = out();
        Page page = new Page();
        ended.lines().forEach(line -> page.hanging("", line));
        if (store.caseFile().isPresent()) {
            page.hanging("", "Kept in " + store.file() + ".");
            page.hanging("", "'gerdy triage' shows the reasons, 'gerdy intake' goes on.");
        }
        out.print(page);
        out.flush();
    }

    /** The day of the visit to go on with or to begin. */
    private LocalDate day(Optional<CaseFile> there) {
        if (date != null) {
            return date;
        }
        return newVisit || there.isEmpty() ? today() : there.get().latest().date();
    }

    /** The case to go on with; a new one or a new visit asks for the side first. */
    private Optional<CaseFile> begin(CaseStore store, LocalDate day, Front front) throws MendableException {
        Optional<CaseFile> there = store.caseFile();
        if (there.isPresent() && there.get().on(day).isPresent()) {
            return there;
        }
        if (there.isPresent() && day.isBefore(there.get().latest().date())) {
            throw new MendableException(
                    store.file().toString(),
                    "There is no visit on " + day + ", and later visits stand in the case; a new visit comes last.");
        }
        Optional<Side> painful = side == null ? askSide(id(store.file()), front) : Optional.of(side);
        if (painful.isEmpty()) {
            return Optional.empty();
        }
        Visit visit = new Visit(day, painful.get(), Map.of(), "", Optional.empty());
        CaseFile base = there.orElse(new CaseFile(id(store.file()), "", "", Map.of(), List.of(), Optional.empty()));
        List<Visit> visits = new ArrayList<>(base.visits());
        visits.add(visit);
        CaseFile begun = new CaseFile(
                base.id(), base.title(), base.source(), base.patient(), List.copyOf(visits), base.expect());
        store.save(begun);
        return Optional.of(begun);
    }

    private static Optional<Side> askSide(String id, Front front) {
        String message = "";
        while (true) {
            Optional<String> typed = front.ask(new Screen(
                    List.of("New case " + id),
                    "Which side hurts?",
                    List.of(new Paragraph("", "The side of the complaint of today's visit.")),
                    List.of("l left", "r right", "b both", "q quit"),
                    Entry.key(),
                    message));
            String text = typed.orElse("q").strip().toLowerCase(Locale.ROOT);
            for (Side one : Side.values()) {
                if (text.equals(one.word()) || text.equals(one.word().substring(0, 1))) {
                    return Optional.of(one);
                }
            }
            if (text.equals("q") || text.equals("quit")) {
                return Optional.empty();
            }
            message = "Press l, r or b.";
            front.tell(message, false);
        }
    }

    private Front front() throws IOException, MendableException {
        return Fronts.open(out(), plain, Optional.ofNullable(script));
    }

    private java.util.function.Consumer<String> recorder() throws MendableException {
        Path to = record;
        if (to == null) {
            return line -> {};
        }
        PrintWriter err = err();
        try {
            Files.writeString(to, "", StandardOpenOption.CREATE, StandardOpenOption.APPEND);
        } catch (IOException e) {
            throw new MendableException(
                    to.toString(), "The recording cannot be written here; choose a place that can be written.");
        }
        return line -> {
            try {
                Files.writeString(to, line + "\n", StandardOpenOption.CREATE, StandardOpenOption.APPEND);
            } catch (IOException e) {
                err.println(to + ": the recording could not be written; the answers are safe in the case.");
            }
        };
    }

    private static LocalDate today() {
        return LocalDate.now(java.time.ZoneId.systemDefault());
    }

    private static String free() {
        String stem = "intake-" + today();
        String name = stem + ".yaml";
        for (int i = 2; Files.exists(Path.of(name)); i++) {
            name = stem + "-" + i + ".yaml";
        }
        return name;
    }

    /** A case id made of the file's name. */
    private static String id(Path file) {
        String id = file.getFileName()
                .toString()
                .replaceFirst("\\.[A-Za-z]+$", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-+|-+$", "");
        String cut = id.length() > 80 ? id.substring(0, 80) : id;
        return cut.isEmpty() ? "case" : cut;
    }
}
