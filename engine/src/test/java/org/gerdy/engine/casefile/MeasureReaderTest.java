package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.measure.Trials;
import org.junit.jupiter.api.Test;

class MeasureReaderTest {
    private final List<Problem> problems = new ArrayList<>();

    private static MeasureDefinition measure(
            String id,
            MeasureKind kind,
            boolean perSide,
            List<String> units,
            List<String> words,
            double min,
            double max) {
        return new MeasureDefinition(
                id,
                id,
                kind,
                perSide,
                Optional.empty(),
                units,
                kind == MeasureKind.INDEX ? 3 : 1,
                Trials.Aggregate.BEST,
                words,
                OptionalDouble.of(min),
                OptionalDouble.of(max),
                OptionalDouble.empty(),
                Map.of("technique", List.of("make", "break"), "device", List.of()),
                List.of(),
                List.of(),
                "",
                "");
    }

    private static final Map<String, MeasureDefinition> MEASURES = Map.of(
            "pull", measure("pull", MeasureKind.FORCE, true, List.of("N", "kgf"), List.of(), 1, 2000),
            "span", measure("span", MeasureKind.TRIALS, true, List.of("mm"), List.of(), 100, 1300),
            "fall", measure("fall", MeasureKind.DROP, true, List.of("mm"), List.of(), 0, 120),
            "items", measure("items", MeasureKind.INDEX, true, List.of("points"), List.of(), -2, 2),
            "rate", measure("rate", MeasureKind.TRIALS, false, List.of("steps/min"), List.of(), 60, 260),
            "look", measure("look", MeasureKind.CHOICE, true, List.of(), List.of("good", "poor"), 0, 0),
            "scan", measure("scan", MeasureKind.LABORATORY, true, List.of("mm"), List.of(), 0, 0));

    private Map<String, Measured> read(String yaml) throws MendableException {
        Tree tree = new TreeReader("case.yaml", problems).read(yaml.getBytes(StandardCharsets.UTF_8));
        return new MeasureReader("case.yaml", MEASURES, problems).read((Tree.Mapping) tree);
    }

    private List<String> messages() {
        return problems.stream().map(Problem::toString).toList();
    }

    @Test
    void trialsBySideAreReadWithTheirSetUpLeverAndPain() throws MendableException {
        Measured pull = read("""
                pull:
                  technique: break
                  lever: {left: 42 cm, right: 0.43 m}
                  pain: 2
                  left: [11.8 kgf, 12.0 kgf]
                  right: 14 kgf
                """).get("pull");
        assertThat(problems).isEmpty();
        assertThat(pull.setUp()).containsExactly(Map.entry("technique", "break"));
        assertThat(pull.left().orElseThrow().trials("trials").best()).isEqualTo(12 * 9.80665);
        assertThat(pull.right().orElseThrow().leverMetres()).hasValue(0.43);
        assertThat(pull.left().orElseThrow().pain()).hasValue(2);
    }

    @Test
    void seriesItemsWordsAndSidelessMeasuresAreRead() throws MendableException {
        Map<String, Measured> read = read("""
                fall: {left: {first: [45 mm, 46 mm], second: 38 mm}}
                items: {left: [1, "-", 0], right: [1, 1, 1]}
                rate: 168
                look: {left: poor, right: good}
                """);
        assertThat(problems).isEmpty();
        assertThat(read.get("fall").left().orElseThrow().trials("first").mean()).isEqualTo(45.5);
        assertThat(read.get("items").left().orElseThrow().series().get("items")).contains(OptionalDouble.empty());
        assertThat(read.get("rate").whole().orElseThrow().trials("trials").mean())
                .isEqualTo(168);
        assertThat(read.get("look").left().orElseThrow().word()).isEqualTo("poor");
    }

    @Test
    void everyFaultIsToldWithItsPlace() throws MendableException {
        read("""
                span: {left: 88 cm, right: 880}
                puls: {left: 12 N}
                pull: {tecnique: make, left: [12 N, 1.2 kgf]}
                scan: {left: 3 mm}
                rate: {speed: 3 m/s}
                look: {left: goood}
                fall: {left: 4 mm}
                """);
        assertThat(messages())
                .satisfiesExactly(
                        m -> assertThat(m).startsWith("case.yaml:1").contains("it takes mm"),
                        m -> assertThat(m).startsWith("case.yaml:1").contains("has no unit"),
                        m -> assertThat(m).startsWith("case.yaml:2:1").contains("did you mean 'pull'?"),
                        m -> assertThat(m).contains("Did you mean 'technique'?"),
                        m -> assertThat(m).contains("in one unit"),
                        m -> assertThat(m).startsWith("case.yaml:4").contains("not measured at the bedside"),
                        m -> assertThat(m).startsWith("case.yaml:5").contains("'speed' is not recorded"),
                        m -> assertThat(m).contains("Did you mean 'good'?"),
                        m -> assertThat(m).contains("takes first: and second:"));
    }

    @Test
    void aMeasureOfSidesWithoutASideIsRefused() throws MendableException {
        assertThat(read("pull: 12 N")).isEmpty();
        assertThat(messages()).hasSize(1).first().asString().contains("write left: and right:");
    }

    private RunNotes runs(String yaml) throws MendableException {
        Tree tree = new TreeReader("case.yaml", problems).read(yaml.getBytes(StandardCharsets.UTF_8));
        return new RunNotesReader("case.yaml", CaseFolder.none(), problems).read((Tree.Mapping) tree);
    }

    @Test
    void sessionsAreReadWithTheirUnits() throws MendableException {
        RunNotes notes = runs("""
                zone: Europe/London
                unlisted: rest
                sessions:
                  - {date: 2026-03-02, distance: 6 mi, duration: 55 min, rpe: 4, surface: trail}
                rest: [2026-03-03]
                """);
        assertThat(problems).isEmpty();
        assertThat(notes.everythingListed()).isTrue();
        assertThat(notes.sessions().get(0).metres()).hasValue(9656);
        assertThat(notes.sessions().get(0).seconds()).hasValue(3300);
        assertThat(notes.restDays()).containsExactly(LocalDate.of(2026, 3, 3));
    }

    @Test
    void runsWithoutUnitsOrWithWrongWordsAreRefused() throws MendableException {
        runs("""
                zone: Mars/Olympus
                unlisted: maybe
                sesions: []
                sessions: [{date: 02.03.2026, distance: 10}, {distance: 10 km, rpe: 11}, {date: 2026-03-02, rpe: 11}]
                """);
        assertThat(messages())
                .satisfiesExactly(
                        m -> assertThat(m).contains("Did you mean 'sessions'?"),
                        m -> assertThat(m).contains("'02.03.2026' is not a day"),
                        m -> assertThat(m).contains("'10' is no distance"),
                        m -> assertThat(m).contains("has no date"),
                        m -> assertThat(m).contains("'rpe' takes"),
                        m -> assertThat(m).contains("is not a zone"),
                        m -> assertThat(m).contains("takes rest or unknown"));
    }
}
