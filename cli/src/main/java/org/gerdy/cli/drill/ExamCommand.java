package org.gerdy.cli.drill;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.cli.KnowledgeOption;
import org.gerdy.cli.intake.Front;
import org.gerdy.cli.intake.Fronts;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.drill.DrillMaster;
import org.gerdy.engine.drill.DrillPatient;
import org.gerdy.engine.drill.DrillScore;
import org.gerdy.engine.drill.Inquiry;
import org.gerdy.engine.drill.ItemAnalysis;
import org.gerdy.engine.drill.Progress;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Exams: made by a teacher, sat by learners, marked together. */
@Command(
        name = "exam",
        mixinStandardHelpOptions = true,
        description = "Make an exam, sit it, or mark what was handed in.",
        footer = {
            "",
            "Examples:",
            "  gerdy drill exam new spring.json --cases 12,13,14 --minutes 45",
            "  gerdy drill exam sit spring.json --learner heron",
            "  gerdy drill exam results spring.json spring-*.sheet.json > results.csv",
            "  gerdy drill exam items spring.json spring-*.sheet.json"
        })
final class ExamCommand implements Runnable {
    private static final String EXAM_FILE = "The exam file, as written by new.";
    private static final String SHEETS = "The sheets that were handed in.";

    @Spec
    private CommandSpec spec = CommandSpec.create();

    private final Clock clock = Clock.systemUTC();

    @Override
    public void run() {
        spec.commandLine().usage(spec.commandLine().getOut());
    }

    @Command(name = "new", description = "Write an exam file.", mixinStandardHelpOptions = true)
    int create(
            @Parameters(paramLabel = "EXAM", description = "The exam file to write.") Path file,
            @Option(
                            names = "--cases",
                            required = true,
                            split = ",",
                            paramLabel = "NUMBER",
                            description = "The patients, by number, with commas between.")
                    List<Long> cases,
            @Option(
                            names = "--minutes",
                            required = true,
                            paramLabel = "MINUTES",
                            description = "How long the sitting may take.")
                    int minutes)
            throws MendableException {
        if (Files.exists(file)) {
            throw new MendableException(file.toString(), "There is such a file already; name another.");
        }
        if (minutes <= 0 || cases.stream().distinct().count() != cases.size()) {
            throw new MendableException(file.toString(), "Minutes are above 0 and no case comes twice.");
        }
        new Exam(cases, minutes).save(file);
        return 0;
    }

    @Command(
            name = "sit",
            description = "Sit an exam; nothing is told until all is handed in.",
            mixinStandardHelpOptions = true)
    int sit(
            @Parameters(paramLabel = "EXAM", description = EXAM_FILE) Path file,
            @Option(
                            names = "--learner",
                            required = true,
                            paramLabel = "PSEUDONYM",
                            description = "Who sits it; the sheet is handed in under this pseudonym.")
                    String learner,
            @Option(names = "--plain", description = "Plain lines even on a terminal, for screen readers.")
                    boolean plain,
            @Option(names = "--script", paramLabel = "FILE", description = "Read the lines from a recorded sitting.")
                    @Nullable
                    Path script,
            @Mixin KnowledgeOption knowledge)
            throws MendableException {
        Progress.checkPseudonym(learner);
        Exam exam = Exam.read(file);
        Path path = Exam.sheet(file, learner);
        Exam.Sheet sheet = Files.exists(path)
                ? Exam.readSheet(path)
                : new Exam.Sheet(learner, clock.instant(), Optional.empty(), new LinkedHashMap<>(), true);
        if (sheet.handedIn().isPresent()) {
            throw new MendableException(
                    path.toString(),
                    "This exam is handed in and cannot be sat again; 'gerdy drill exam results' marks it.");
        }
        Exam.saveSheet(path, sheet);
        School school = School.open(knowledge);
        PrintWriter out = spec.commandLine().getOut();
        Instant end = sheet.started().plus(Duration.ofMinutes(exam.minutes()));
        int misunderstood = 0;
        try (Front front = Fronts.open(out, plain, Optional.ofNullable(script))) {
            for (long number : exam.cases()) {
                if (sheet.work().containsKey(number) || clock.instant().isAfter(end)) {
                    continue;
                }
                String which = "Exam, case " + (exam.cases().indexOf(number) + 1) + " of "
                        + exam.cases().size() + ". ";
                DrillPatient patient = school.maker().make(number);
                DrillCommand.Worked worked =
                        DrillCommand.work(school, patient, front, () -> List.of(which + left(end)));
                misunderstood = worked.misunderstood();
                if (worked.committed().isEmpty()) {
                    out.println("Not handed in; sit it again to go on. " + left(end));
                    return misunderstood > 0 ? 1 : 0;
                }
                if (clock.instant().isAfter(end)) {
                    break;
                }
                sheet.work()
                        .put(
                                number,
                                new Exam.Work(
                                        worked.inquiry().steps().stream()
                                                .map(Inquiry.Step::finding)
                                                .toList(),
                                        worked.committed().get()));
                Exam.saveSheet(path, sheet);
            }
        } catch (IOException e) {
            throw new MendableException(file.toString(), "The exam could not be shown: " + e.getMessage() + ".");
        }
        Exam.saveSheet(
                path, new Exam.Sheet(learner, sheet.started(), Optional.of(clock.instant()), sheet.work(), true));
        out.println("Handed in: " + sheet.work().size() + " of " + exam.cases().size() + " cases, in " + path + ".");
        return misunderstood > 0 ? 1 : 0;
    }

    private String left(Instant end) {
        Duration left = Duration.between(clock.instant(), end);
        String time = LocalTime.ofInstant(end, ZoneId.systemDefault())
                .truncatedTo(ChronoUnit.MINUTES)
                .toString();
        if (left.isNegative()) {
            return "The time was up at " + time + ".";
        }
        long minutes = left.toMinutes();
        return "Time runs until " + time + ", " + minutes + (minutes == 1 ? " minute" : " minutes") + " from now.";
    }

    /** One learner's marks, in the order of the exam; a case not handed in counts nothing. */
    private record Marks(Exam.Sheet sheet, List<Optional<DrillScore>> scores) {
        double[] totals() {
            return scores.stream()
                    .mapToDouble(score -> score.map(DrillScore::total).orElse(0.0))
                    .toArray();
        }
    }

    private static List<Marks> marks(School school, Exam exam, List<Path> sheets) throws MendableException {
        List<Exam.Sheet> read = new ArrayList<>();
        for (Path path : sheets) {
            Exam.Sheet sheet = Exam.readSheet(path);
            if (sheet.handedIn().isEmpty()) {
                throw new MendableException(path.toString(), "This sheet is not handed in yet and stays sealed.");
            }
            read.add(sheet);
        }
        List<List<Optional<DrillScore>>> scores = new ArrayList<>();
        read.forEach(ignored -> scores.add(new ArrayList<>()));
        for (long number : exam.cases()) {
            DrillPatient patient = school.maker().make(number);
            DrillMaster.Walk walk = school.master().walk(patient);
            for (int i = 0; i < read.size(); i++) {
                Optional<Exam.Work> work =
                        Optional.ofNullable(read.get(i).work().get(number));
                scores.get(i).add(work.map(one -> {
                    Inquiry inquiry = school.master().begin(patient);
                    one.asked().forEach(inquiry::ask);
                    return school.marker().mark(inquiry, walk, one.stated()).score();
                }));
            }
        }
        List<Marks> marks = new ArrayList<>();
        for (int i = 0; i < read.size(); i++) {
            marks.add(new Marks(read.get(i), scores.get(i)));
        }
        return marks;
    }

    @Command(name = "results", description = "Marks of handed-in sheets as CSV.", mixinStandardHelpOptions = true)
    int results(
            @Parameters(index = "0", paramLabel = "EXAM", description = EXAM_FILE) Path file,
            @Parameters(index = "1..*", arity = "1..*", paramLabel = "SHEET", description = SHEETS) List<Path> sheets,
            @Mixin KnowledgeOption knowledge)
            throws MendableException {
        Exam exam = Exam.read(file);
        School school = School.open(knowledge);
        PrintWriter out = spec.commandLine().getOut();
        out.print("learner,case,score,dangerous,under_triaged,questions");
        for (DrillScore.Kind kind : DrillScore.Kind.values()) {
            out.print("," + kind.word());
        }
        out.println(",minutes,seal");
        boolean sound = true;
        for (Marks one : marks(school, exam, sheets)) {
            sound &= one.sheet().sound();
            for (int i = 0; i < exam.cases().size(); i++) {
                out.println(row(one, exam.cases().get(i), one.scores().get(i)));
            }
        }
        return sound ? 0 : 1;
    }

    private static String row(Marks marks, long number, Optional<DrillScore> score) {
        StringBuilder row = new StringBuilder(marks.sheet().learner() + "," + number);
        if (score.isEmpty()) {
            row.append(",0,,,");
        } else {
            row.append(String.format(
                    Locale.ROOT,
                    ",%.1f,%s,%s,%d",
                    score.get().total(),
                    score.get().dangerous() ? "yes" : "no",
                    score.get().underTriaged() ? "yes" : "no",
                    Optional.ofNullable(marks.sheet().work().get(number))
                            .map(work -> work.asked().size())
                            .orElse(0)));
        }
        for (DrillScore.Kind kind : DrillScore.Kind.values()) {
            row.append(',')
                    .append(score.flatMap(one -> one.part(kind))
                            .map(part -> String.format(Locale.ROOT, "%.1f", part.points()))
                            .orElse(""));
        }
        long minutes = Duration.between(
                        marks.sheet().started(), marks.sheet().handedIn().orElseThrow())
                .toMinutes();
        return row.append(',')
                .append(minutes)
                .append(',')
                .append(marks.sheet().sound() ? "intact" : "broken")
                .toString();
    }

    @Command(
            name = "items",
            description = "Difficulty and discrimination of each case, and alpha of the whole, as CSV.",
            mixinStandardHelpOptions = true)
    int items(
            @Parameters(index = "0", paramLabel = "EXAM", description = EXAM_FILE) Path file,
            @Parameters(index = "1..*", arity = "1..*", paramLabel = "SHEET", description = SHEETS) List<Path> sheets,
            @Mixin KnowledgeOption knowledge)
            throws MendableException {
        Exam exam = Exam.read(file);
        School school = School.open(knowledge);
        double[][] totals =
                marks(school, exam, sheets).stream().map(Marks::totals).toArray(double[][]::new);
        ItemAnalysis analysis = ItemAnalysis.of(
                exam.cases().stream().map(number -> Long.toString(number)).toList(), totals, 100);
        PrintWriter out = spec.commandLine().getOut();
        out.println("case,condition,difficulty_word,difficulty,deviation,discrimination");
        for (ItemAnalysis.Item item : analysis.items()) {
            var draw = school.maker().draw(Long.parseLong(item.id()));
            out.println(
                    item.id() + "," + draw.condition() + "," + draw.difficulty().word()
                            + String.format(Locale.ROOT, ",%.3f,%.2f,", item.difficulty(), item.deviation())
                            + text(item.discrimination()));
        }
        out.println("alpha,,,,," + text(analysis.alpha()));
        return 0;
    }

    private static String text(OptionalDouble value) {
        return value.isPresent() ? String.format(Locale.ROOT, "%.3f", value.getAsDouble()) : "";
    }
}
