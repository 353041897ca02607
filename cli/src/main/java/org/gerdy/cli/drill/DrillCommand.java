package org.gerdy.cli.drill;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.gerdy.cli.Cases;
import org.gerdy.cli.KnowledgeCommand;
import org.gerdy.cli.intake.Front;
import org.gerdy.cli.intake.Fronts;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.drill.Commitment;
import org.gerdy.engine.drill.Difficulty;
import org.gerdy.engine.drill.DrillPatient;
import org.gerdy.engine.drill.DrillScore;
import org.gerdy.engine.drill.Inquiry;
import org.gerdy.engine.drill.Marker;
import org.gerdy.engine.drill.NextCase;
import org.gerdy.engine.drill.Progress;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** A case worked blind: ask, examine, measure, commit, and see what it was worth and why. */
@Command(
        name = "drill",
        mixinStandardHelpOptions = true,
        description = {
            "Work a case blind. Only the opening complaint is told; ask by words or by name.",
            "Commit to urgency, candidates with a percentage each, factors, plan and what would settle it."
        },
        footer = {
            "",
            "With --learner the mark is kept under that pseudonym and weak conditions come back sooner.",
            "Exit code 0 when the case was marked, or left with quit; 1 when a file has errors or, with --script, a line"
                    + " meant nothing.",
            "",
            "Examples:",
            "  gerdy drill --learner heron",
            "  gerdy drill --case 12 --script answers.txt",
            "  gerdy drill report heron",
            "  gerdy drill exam new spring.json --cases 12,13,14 --minutes 45"
        },
        subcommands = {ReportCommand.class, ExamCommand.class})
public final class DrillCommand extends KnowledgeCommand {
    @Option(names = "--learner", paramLabel = "PSEUDONYM", description = "Keep the mark under this pseudonym.")
    private @Nullable String learner;

    @Option(names = "--case", paramLabel = "NUMBER", description = "The patient of this number; the same every time.")
    private @Nullable Long number;

    @Option(names = "--condition", paramLabel = "ID", description = "A patient with this condition.")
    private @Nullable String condition;

    @Option(
            names = "--difficulty",
            paramLabel = "WORD",
            description = "textbook, atypical, two-at-once, missing-answers or red-herring.")
    private @Nullable String difficulty;

    @Option(names = "--file", paramLabel = "CASEFILE", description = "The latest visit of this case file.")
    private @Nullable String file;

    @Option(names = "--progress", paramLabel = "DIR", description = "Where progress is kept.")
    private @Nullable Path progress;

    @Option(names = "--on", paramLabel = "DATE", description = "The day of the drill; today by default.")
    private @Nullable LocalDate day;

    @Option(names = "--plain", description = "Plain lines even on a terminal, for screen readers.")
    private boolean plain;

    @Option(names = "--script", paramLabel = "FILE", description = "Read the lines from a recorded drill.")
    private @Nullable Path script;

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = out();
        String name = learner;
        LocalDate today = day == null ? LocalDate.now(ZoneId.systemDefault()) : day;
        Path directory = progress == null ? School.home() : progress;
        Optional<Progress> kept = name == null ? Optional.empty() : Optional.of(Progress.read(directory, name));
        School school = School.open(knowledge());
        DrillPatient patient = patient(school, kept, today);
        Worked worked = work(school, patient, out, plain, Optional.ofNullable(script));
        if (worked.committed().isEmpty()) {
            out.println("Left without committing; nothing is marked or kept.");
            return worked.misunderstood() > 0 ? 1 : 0;
        }
        Marker.Marked marked = school.marker()
                .mark(
                        worked.inquiry(),
                        school.master().walk(patient),
                        worked.committed().get());
        out.print(new Verdict(school.gerdy().knowledge(), school.marker()).text(worked.inquiry(), marked));
        if (kept.isPresent()) {
            kept.get()
                    .with(played(today, worked.inquiry(), worked.committed().get(), marked.score()))
                    .save(directory);
            out.println("Kept under " + name + " in "
                    + Progress.file(directory, kept.get().learner()) + ".");
        }
        if (worked.misunderstood() > 0) {
            out.println(worked.misunderstood() + " lines meant nothing.");
        }
        return worked.misunderstood() > 0 ? 1 : 0;
    }

    /**
     * A case worked to its end.
     *
     * @param misunderstood lines of a script that meant nothing
     */
    record Worked(Inquiry inquiry, Optional<Commitment> committed, int misunderstood) {}

    static Worked work(School school, DrillPatient patient, PrintWriter out, boolean plain, Optional<Path> script)
            throws MendableException {
        try (Front front = Fronts.open(out, plain, script)) {
            Runtime.getRuntime().addShutdownHook(new Thread(front::close));
            return work(school, patient, front, List::of);
        } catch (IOException e) {
            throw new MendableException(patient.id(), "The drill could not be shown: " + e.getMessage() + ".");
        }
    }

    static Worked work(School school, DrillPatient patient, Front front, Supplier<List<String>> above) {
        Inquiry inquiry = school.master().begin(patient);
        DrillDesk desk = new DrillDesk(school.master(), inquiry, above);
        while (!desk.closed()) {
            Optional<String> typed = front.ask(desk.screen());
            if (typed.isEmpty()) {
                break;
            }
            desk.take(typed.get());
            front.tell(desk.message(), desk.understood());
        }
        return new Worked(inquiry, desk.committed(), Fronts.misunderstood(front));
    }

    static Progress.Played played(LocalDate day, Inquiry inquiry, Commitment stated, DrillScore score) {
        Map<String, double[]> parts = new LinkedHashMap<>();
        score.parts().forEach(part -> parts.put(part.kind().word(), new double[] {part.points(), part.most()}));
        return new Progress.Played(
                day,
                inquiry.patient().id(),
                inquiry.patient().causes(),
                inquiry.patient().difficulty(),
                score.total(),
                score.dangerous(),
                score.underTriaged(),
                parts,
                stated.confidences(),
                inquiry.steps().size());
    }

    private DrillPatient patient(School school, Optional<Progress> kept, LocalDate today) throws MendableException {
        String path = file;
        if (path != null) {
            CaseFile caseFile = school.gerdy().read(Cases.path(path));
            DrillPatient patient = school.files().of(caseFile);
            Optional<String> unfit = school.files().unfit(caseFile, patient);
            if (unfit.isPresent()) {
                throw new MendableException(path, "Not fit to practise on: " + unfit.get());
            }
            return patient;
        }
        if (number != null) {
            return school.maker().make(number);
        }
        long from = kept.map(one -> Math.floorMod(one.learner().hashCode(), 90_000) + 10_000L)
                .orElseGet(() -> Math.floorMod(System.nanoTime(), 90_000) + 10_000L);
        String wanted = condition;
        String how = difficulty;
        if (wanted != null || how != null) {
            if (wanted != null && !school.maker().conditions().contains(wanted)) {
                throw new MendableException(
                        "--condition", "There is no condition '" + wanted + "'; 'gerdy rules list' shows them.");
            }
            if (how != null && Difficulty.of(how).isEmpty()) {
                throw new MendableException("--difficulty", "There is no difficulty '" + how + "'.");
            }
            long seed = from + kept.map(one -> one.played().size()).orElse(0);
            while (!fits(school.maker().draw(seed), wanted, how)) {
                seed++;
            }
            return school.maker().make(seed);
        }
        return school.maker()
                .make(kept.map(one ->
                                new NextCase(school.maker(), school.master().tables()).seed(one, today))
                        .orElse(from));
    }

    private static boolean fits(
            org.gerdy.engine.drill.PatientMaker.Draw draw, @Nullable String wanted, @Nullable String how) {
        return (wanted == null || draw.condition().equals(wanted))
                && (how == null || draw.difficulty().word().equals(how));
    }
}
