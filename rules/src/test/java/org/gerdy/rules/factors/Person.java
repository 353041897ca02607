package org.gerdy.rules.factors;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.FactorTablesReader;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.load.LoadHistory;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.load.LoadSettings;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.Readings;
import org.gerdy.engine.reasoning.FactorVerdicts;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** One invented runner with what was measured, and the verdicts on it. */
final class Person {
    static final KnowledgeFiles FILES = KnowledgeFiles.in(
            Path.of(System.getProperty("gerdy.root"), "rules", "src", "main", "resources", "org", "gerdy", "rules"));
    static final FactorTables TABLES = FactorTablesReader.factors(FILES);
    static final LoadSettings LOAD = FactorTablesReader.load(FILES);
    static final Map<String, String> BREAK = Map.of("technique", "break", "position", "side-lying");
    static final Map<String, String> MAKE = Map.of("technique", "make", "position", "side-lying");

    private final Side side;
    private final Map<String, Recorded> findings = new LinkedHashMap<>();
    private final List<Map<String, Measured>> visits = new ArrayList<>(List.of(new LinkedHashMap<>()));
    private Optional<LoadReport> load = Optional.empty();

    private Person(Side side) {
        this.side = side;
    }

    static Person hurting(Side side) {
        return new Person(side);
    }

    Person whole(String finding, double value) {
        findings.put(finding, new Recorded.Whole(new Answer.Quantity(value, Double.toString(value))));
        return this;
    }

    Person told(String finding, String word) {
        Answer answer = word.equals("present") || word.equals("absent")
                ? Answer.State.valueOf(word.toUpperCase(java.util.Locale.ROOT))
                : new Answer.Choice(word);
        findings.put(finding, new Recorded.Whole(answer));
        return this;
    }

    Person found(String finding, double left, double right) {
        findings.put(
                finding,
                new Recorded.Sides(
                        Optional.of(new Answer.Quantity(left, Double.toString(left))),
                        Optional.of(new Answer.Quantity(right, Double.toString(right)))));
        return this;
    }

    Person measured(String id, Map<String, String> setUp, Readings left, Readings right) {
        visits.get(visits.size() - 1).put(id, Measured.sides(id, setUp, left, right));
        return this;
    }

    Person measured(String id, double left, double right) {
        return measured(id, Map.of(), Readings.of(left), Readings.of(right));
    }

    Person words(String id, String left, String right) {
        return measured(id, Map.of(), Readings.of(left), Readings.of(right));
    }

    Person measured(Measured measured) {
        visits.get(visits.size() - 1).put(measured.measure(), measured);
        return this;
    }

    Person nextDay() {
        visits.add(new LinkedHashMap<>());
        return this;
    }

    /** Thirty even days, then the first painful run. */
    Person ran(long usual, long painful) {
        LocalDate first = LocalDate.of(2026, 3, 2);
        List<Session> sessions = new ArrayList<>();
        for (int i = 0; i <= 30; i++) {
            sessions.add(Session.written(
                    first.plusDays(i),
                    OptionalLong.of(i == 30 ? painful : usual),
                    OptionalLong.empty(),
                    OptionalDouble.empty()));
        }
        LoadHistory history =
                LoadHistory.of(List.of(new RunLog(sessions, Set.of(), List.of())), LoadHistory.Unlisted.UNKNOWN, LOAD);
        load = Optional.of(LoadReport.of(history, history.last(), Optional.of(first.plusDays(30)), LOAD));
        return this;
    }

    FactorResult verdict(String factor) {
        return verdicts().stream()
                .filter(result -> result.id().equals(factor))
                .findFirst()
                .orElseThrow();
    }

    List<FactorResult> verdicts() {
        return FactorVerdicts.judge(TABLES, Observations.of(CATALOGUE, side, findings), visits, load);
    }

    private static final Catalogue CATALOGUE = catalogue();

    /** Every finding the factors read, with the kind its use asks for. */
    private static Catalogue catalogue() {
        Map<String, FindingDefinition> all = new LinkedHashMap<>();
        for (String id :
                List.of("age", "mass", "height", "running-years", "first-painful-distance", "longest-run-30-days")) {
            all.put(id, finding(id, Kind.NUMBER, List.of(), false));
        }
        all.put("sex", finding("sex", Kind.CHOICE, List.of("female", "male"), false));
        all.put(
                "main-training-change",
                finding("main-training-change", Kind.CHOICE, List.of("hills-or-downhill", "none"), false));
        TABLES.measures().values().forEach(measure -> measure.finding()
                .ifPresent(id -> all.putIfAbsent(id, finding(id, Kind.NUMBER, List.of(), measure.perSide()))));
        all.put("hip-abductor-weakness", finding("hip-abductor-weakness", Kind.YES_NO, List.of(), true));
        for (FactorDefinition factor : TABLES.factors()) {
            factor.presentWhen()
                    .map(Person::atoms)
                    .orElse(List.of())
                    .forEach(id -> all.putIfAbsent(id, finding(id, Kind.YES_NO, List.of(), false)));
        }
        return Catalogue.of(all.values(), List.of());
    }

    private static List<String> atoms(Expression expression) {
        List<String> ids = new ArrayList<>();
        expression.atoms(atom -> ids.add(atom.finding()));
        return ids;
    }

    private static FindingDefinition finding(String id, Kind kind, List<String> choices, boolean perSide) {
        return new FindingDefinition(
                id,
                "measure",
                "",
                "?",
                "",
                kind,
                choices,
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                perSide,
                Optional.empty(),
                false,
                5,
                "",
                "",
                "",
                List.of(),
                List.of(),
                "");
    }
}
