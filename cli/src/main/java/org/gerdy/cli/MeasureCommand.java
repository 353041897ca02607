package org.gerdy.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.vocabulary.Catalogue;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** One measure by itself, at the couch: values in, meaning out. */
@Command(
        name = "measure",
        description = "One measure by itself: readings in, what they mean out.",
        footer = {
            "",
            "Without ID: every measure. With ID and --help: how it is taken, and an example.",
            "Readings of one set stand in quotes with commas between them, each with its unit.",
            "Two sets, as of a drop, have a slash between them: \"45 mm, 46 mm / 38 mm, 39 mm\".",
            "",
            "Examples:",
            "  gerdy measure",
            "  gerdy measure leg-length-blocks --help",
            "  gerdy measure leg-length-blocks --painful left --left \"12 mm, 12 mm\" --right \"0 mm\""
        })
final class MeasureCommand extends KnowledgeCommand {
    private static final List<String> PEOPLE = List.of("age", "sex", "mass", "height");

    @Parameters(index = "0", arity = "0..1", paramLabel = "ID", description = "A measure, as listed.")
    private @Nullable String id;

    @Option(names = "--left", paramLabel = "READINGS", arity = "1..*", description = "Readings or word on the left.")
    private List<String> left = new ArrayList<>();

    @Option(names = "--right", paramLabel = "READINGS", arity = "1..*", description = "Readings or word on the right.")
    private List<String> right = new ArrayList<>();

    @Option(
            names = "--value",
            paramLabel = "READINGS",
            arity = "1..*",
            description = "Readings or word of a measure without sides.")
    private List<String> value = new ArrayList<>();

    @Option(names = "--painful", paramLabel = "SIDE", description = "Which side hurts: left, right or both.")
    private @Nullable String painful;

    @Option(names = "--technique", paramLabel = "WORD", description = "Kind of test, such as make or break.")
    private @Nullable String technique;

    @Option(names = "--position", paramLabel = "WORD", description = "Position, such as side-lying.")
    private @Nullable String position;

    @Option(
            names = "--with",
            paramLabel = "KEY=WORD",
            description = "Another word on how it was taken; may be repeated.")
    private Map<String, String> with = new LinkedHashMap<>();

    @Option(names = "--lever", paramLabel = "LENGTH", description = "Lever of a strength test, such as \"42 cm\".")
    private @Nullable String lever;

    @Option(names = "--pain-left", paramLabel = "0-10", description = "Pain during a strength test on the left.")
    private @Nullable String painLeft;

    @Option(names = "--pain-right", paramLabel = "0-10", description = "Pain during a strength test on the right.")
    private @Nullable String painRight;

    @Option(names = "--age", paramLabel = "YEARS", description = "Age, for norms that ask for it.")
    private @Nullable String age;

    @Option(names = "--sex", paramLabel = "WORD", description = "Recorded sex, for norms that ask for it.")
    private @Nullable String sex;

    @Option(names = "--mass", paramLabel = "MASS", description = "Body mass, such as \"61 kg\".")
    private @Nullable String mass;

    @Option(names = "--height", paramLabel = "LENGTH", description = "Standing height, such as \"168 cm\".")
    private @Nullable String height;

    @Option(
            names = {"-h", "--help"},
            description = "Show this help; with ID, how the measure is taken.")
    private boolean help;

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = out();
        String wanted = id;
        if (wanted == null && help) {
            commandLine().usage(out);
            return 0;
        }
        Gerdy gerdy = gerdy();
        FactorTables tables = gerdy.knowledge().factors();
        MeasurePages pages = new MeasurePages(gerdy.knowledge());
        if (wanted == null) {
            out.print(pages.list());
            return 0;
        }
        Optional<MeasureDefinition> measure = tables.measure(wanted);
        if (measure.isEmpty()) {
            return wrong("There is no measure '" + wanted + "'; "
                    + Catalogue.nearest(wanted, tables.measures().keySet())
                            .map(nearest -> "did you mean '" + nearest + "'?")
                            .orElse("'gerdy measure' lists them."));
        }
        if (help) {
            out.print(pages.protocol(measure.get()));
            return 0;
        }
        Optional<String> missing = missing(measure.get(), tables);
        if (missing.isPresent()) {
            return wrong(missing.get());
        }
        return take(gerdy, measure.get(), pages);
    }

    private int take(Gerdy gerdy, MeasureDefinition measure, MeasurePages pages) {
        try {
            CaseFile taken = new MeasureCase(measure, this).read(gerdy);
            List<FactorResult> results = gerdy.factors(taken, taken.latest());
            out().print(pages.meaning(measure, taken.latest(), results));
            return 0;
        } catch (MendableException e) {
            e.problems().forEach(problem -> err().println(problem.message()));
            return 1;
        }
    }

    private Optional<String> missing(MeasureDefinition measure, FactorTables tables) {
        String how = "; 'gerdy measure " + measure.id() + " --help' shows an example.";
        if (measure.kind() == MeasureKind.LABORATORY) {
            return Optional.of("'" + measure.id()
                    + "' is known from studies and not measured at the bedside; 'gerdy measure' lists what is.");
        }
        boolean computed = measure.id().equals(tables.settings().massIndexMeasure());
        if (computed) {
            return mass == null || height == null
                    ? Optional.of("'" + measure.id() + "' is worked out; give --mass and --height" + how)
                    : Optional.empty();
        }
        if (measure.perSide() && !value.isEmpty()) {
            return Optional.of("'" + measure.id() + "' is taken on each side; give --left and --right" + how);
        }
        if (!measure.perSide() && !(left.isEmpty() && right.isEmpty())) {
            return Optional.of("'" + measure.id() + "' has no sides; give --value" + how);
        }
        if (measure.perSide() ? left.isEmpty() && right.isEmpty() : value.isEmpty()) {
            return Optional.of(
                    "There is no reading; give " + (measure.perSide() ? "--left and --right" : "--value") + how);
        }
        return measure.perSide() && painful == null
                ? Optional.of("Say which side hurts: --painful left, right or both" + how)
                : Optional.empty();
    }

    private int wrong(String sentence) {
        err().println(sentence);
        return 2;
    }

    /** Readings of a side, or of the whole when the side is blank. */
    String readings(String side) {
        return String.join(", ", side.equals("left") ? left : side.equals("right") ? right : value);
    }

    /** The painful side; left where the measure has no sides and it was not said. */
    String painfulSide() {
        return Optional.ofNullable(painful).orElse("left");
    }

    /** What was said of how the measure was taken, readings left out. */
    Map<String, String> setUp() {
        Map<String, String> setUp = new LinkedHashMap<>(with);
        put(setUp, "technique", technique);
        put(setUp, "position", position);
        put(setUp, "lever", lever);
        return setUp;
    }

    /** Pain during the test by side. */
    Map<String, String> pain() {
        Map<String, String> pain = new LinkedHashMap<>();
        put(pain, "left", painLeft);
        put(pain, "right", painRight);
        return pain;
    }

    /** What was said of the person, by the name of the option. */
    Map<String, String> person() {
        Map<String, String> person = new LinkedHashMap<>();
        put(person, PEOPLE.get(0), age);
        put(person, PEOPLE.get(1), sex);
        put(person, PEOPLE.get(2), mass);
        put(person, PEOPLE.get(3), height);
        return person;
    }

    private static void put(Map<String, String> map, String key, @Nullable String text) {
        if (text != null) {
            map.put(key, text);
        }
    }
}
