package org.gerdy.cli;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.gerdy.cli.audit.Html;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.audit.Cohort;
import org.gerdy.engine.audit.Watcher;
import org.gerdy.engine.casefile.JsonText;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.drill.DrillTables;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Draws patients from the knowledge base's own numbers and tells how it does on them. */
@Command(
        name = "simulate",
        mixinStandardHelpOptions = true,
        description = {
            "Draw patients from the knowledge base's own numbers and tell how it does on them.",
            Cohort.CAUTION
        },
        footer = {
            "",
            "Exit code 0 when no dangerous condition that shows signs in complete danger answers got the lowest urgency,"
                    + " 3 when one did.",
            "",
            "Examples:",
            "  gerdy simulate --cases 2000 --complete",
            "  gerdy simulate --cases 20000 --complete --dangerous --perturb 0",
            "  gerdy simulate --cases 1000000 --write cases.jsonl"
        })
final class SimulateCommand extends KnowledgeCommand {
    @Option(names = "--cases", paramLabel = "N", description = "How many patients (default: ${DEFAULT-VALUE}).")
    private int cases = 2000;

    @Option(names = "--seed", paramLabel = "N", description = "The same number, the same patients (default: 1).")
    private long seed = 1;

    @Option(names = "--population", paramLabel = "ID", description = "Only this population; a mix by default.")
    private @Nullable String population;

    @Option(names = "--dangerous", description = "Only conditions that must not be missed, each as often as any other.")
    private boolean dangerous;

    @Option(names = "--complete", description = "Ask every danger question until the screen is complete.")
    private boolean complete;

    @Option(
            names = "--perturb",
            paramLabel = "N",
            description = "Judge again N times with evidence drawn afresh within its bounds (default: 3).")
    private int perturb = 3;

    @Option(names = "--write", paramLabel = "FILE", description = "Write the cases as JSON lines and stop.")
    private @Nullable Path write;

    @Option(names = "--html", paramLabel = "FILE", description = "Also write a page with the reliability plot.")
    private @Nullable Path html;

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = out();
        Gerdy gerdy = gerdy();
        if (cases < 1 || perturb < 0) {
            err().println("--cases takes a number from 1, --perturb one from 0.");
            return 2;
        }
        if (population != null && !gerdy.knowledge().priors().populations().containsKey(population)) {
            err().println("There is no population '" + population + "'; use one of: "
                    + String.join(", ", gerdy.knowledge().priors().populations().keySet()) + ".");
            return 2;
        }
        DrillTables tables = DrillTables.load(knowledge().files(), gerdy.knowledge());
        Cohort.Draw draw = new Cohort.Draw(cases, seed, Optional.ofNullable(population), dangerous, complete);
        Path target = write;
        if (target != null) {
            written(new Cohort.Source(gerdy.knowledge(), tables), draw, target);
            out.println(cases + " cases written to " + target + ".");
            return 0;
        }
        Cohort cohort = Cohort.run(gerdy.knowledge(), tables, draw, perturb, Bars.onTerminal());
        List<List<String>> rows = rows(cohort);
        out.println(Cohort.CAUTION);
        out.println();
        for (List<String> row : rows) {
            out.printf(Locale.ROOT, "%-62s %s%n", row.get(0), row.get(1));
        }
        out.println();
        out.println("Reliability of the first candidate: share said, part found, patients");
        for (double[] bin : cohort.figures().bins()) {
            out.printf(Locale.ROOT, "  %.2f  %.2f  %d%n", bin[0], bin[1], (int) bin[2]);
        }
        cohort.missed().forEach(missed -> out.println("Missed: " + missed));
        page(cohort, rows);
        return complete && !cohort.missed().isEmpty() ? 3 : 0;
    }

    private static List<List<String>> rows(Cohort cohort) {
        Cohort.Figures figures = cohort.figures();
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of("Patients", Integer.toString(figures.cases())));
        rows.add(List.of("With a condition that must not be missed", Integer.toString(figures.dangerous())));
        rows.add(part("  and signs of it in their answers", figures.showing()));
        rows.add(part("  and no sign, only a risk they bring along", figures.background()));
        rows.add(part("  and nothing in their answers that speaks for it", figures.silent()));
        rows.add(row(cohort, "Sensitivity for dangerous conditions that show signs", Cohort.Figures::sensitivity));
        if (figures.benign() > 0) {
            rows.add(row(cohort, "Benign patients sent on urgently or sooner", Cohort.Figures::overTriage));
        }
        rows.add(row(cohort, "True condition first", one -> one.within(1)));
        rows.add(row(cohort, "True condition within the first three", one -> one.within(3)));
        rows.add(row(cohort, "True condition within the first five", one -> one.within(5)));
        rows.add(row(cohort, "Brier score of the first candidate", Cohort.Figures::brier));
        rows.add(row(cohort, "Expected calibration error", Cohort.Figures::calibrationError));
        return rows;
    }

    private static List<String> part(String name, Cohort.Part part) {
        String lowest = part.lowest() == 0 ? "" : ", of which without a referral " + part.kept();
        return List.of(name, part.patients() + ", at the lowest urgency " + part.lowest() + lowest);
    }

    private static List<String> row(Cohort cohort, String name, ToDoubleFunction<Cohort.Figures> figure) {
        String text = String.format(Locale.ROOT, "%.3f", figure.applyAsDouble(cohort.figures()));
        if (!cohort.perturbed().isEmpty()) {
            text += String.format(
                    Locale.ROOT,
                    ", with evidence perturbed %.3f to %.3f",
                    cohort.perturbed().stream().mapToDouble(figure).min().orElse(0),
                    cohort.perturbed().stream().mapToDouble(figure).max().orElse(0));
        }
        return List.of(name, text);
    }

    private void page(Cohort cohort, List<List<String>> rows) throws MendableException {
        Path file = html;
        if (file == null) {
            return;
        }
        Html page = new Html("Simulated cohort of " + cases + " patients");
        page.loud(Cohort.CAUTION).table("Figures", List.of("What", "Value"), rows);
        page.heading("Reliability")
                .points("Share said against part found", cohort.figures().bins());
        if (!cohort.missed().isEmpty()) {
            page.heading("Missed");
            cohort.missed().forEach(page::paragraph);
        }
        try {
            Files.writeString(file, page.toString());
        } catch (IOException e) {
            throw new MendableException(file.toString(), "Could not be written: " + e.getMessage() + ".");
        }
    }

    private static void written(Cohort.Source source, Cohort.Draw draw, Path file) throws MendableException {
        try (Writer writer = Files.newBufferedWriter(file);
                Watcher.Steps steps = Bars.onTerminal().begin("Patients", draw.cases())) {
            for (int i = 0; i < draw.cases(); i++) {
                line(writer, i, source.answers(draw, i));
                writer.write('\n');
                steps.done(1);
            }
        } catch (IOException e) {
            throw new MendableException(file.toString(), "Could not be written: " + e.getMessage() + ".");
        }
    }

    private static void line(Writer writer, int index, Map<String, Recorded> answers) throws IOException {
        try (JsonGenerator json = new JsonFactory()
                .createGenerator(writer)
                .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
                .disable(JsonGenerator.Feature.FLUSH_PASSED_TO_STREAM)) {
            json.writeStartObject();
            json.writeNumberField("gerdy", 1);
            json.writeStringField("case", "simulated-" + index);
            json.writeArrayFieldStart("visits");
            json.writeStartObject();
            json.writeStringField("date", "2026-03-02");
            json.writeStringField("side", "left");
            json.writeObjectFieldStart("findings");
            for (Map.Entry<String, Recorded> answer : answers.entrySet()) {
                json.writeFieldName(answer.getKey());
                JsonText.answer(json, answer.getValue());
            }
            json.writeEndObject();
            json.writeEndObject();
            json.writeEndArray();
            json.writeEndObject();
        }
    }
}
