package org.gerdy.engine.plan;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.NumberRange;
import org.gerdy.engine.knowledge.Settings;
import org.gerdy.engine.knowledge.Table;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Units;

/**
 * The tables schedules are made from.
 *
 * @param protocol walk-run steps and their limits
 * @param bands the bands of pain in use; a rival scheme stands in the table and is not used
 * @param supportSteps steps with part of the weight taken off
 * @param supportRestDays whole days between two supported sessions
 * @param supportAccuracy what a device was measured to deliver
 * @param mostTakenOff the most weight any step may take off
 * @param usual what is commonly set, from least to most taken off
 * @param effects what taking weight off does and does not do
 * @param stepRate how far to raise the step rate
 */
public record ScheduleTables(
        RunProtocol protocol,
        List<PainMonitoring.Band> bands,
        List<SupportStep> supportSteps,
        int supportRestDays,
        SupportAccuracy supportAccuracy,
        WeightSupport mostTakenOff,
        List<WeightSupport> usual,
        List<SupportEffect> effects,
        Cue stepRate) {

    /**
     * What taking weight off does, or does not do, to one measure.
     *
     * @param id stable name
     * @param measure what was measured
     * @param changes {@code falls}, {@code rises}, {@code no-change} or {@code conflict}
     * @param text the finding in words
     * @param sources bibliography keys
     * @param basis where it comes from
     */
    public record SupportEffect(
            String id, String measure, String changes, String text, List<String> sources, Basis basis) {}

    /** Reads the tables. Throws {@link KnowledgeException} naming file and line of any fault. */
    public static ScheduleTables load(KnowledgeFiles files) {
        Settings settings = settings(files);
        WeightSupport most = WeightSupport.takingOff(settings.value("support_most_taken_off_percent"));
        List<RunStep> steps = files.table("run-steps.csv", "phase", "walk_min", "run_min", "distance_mi", "basis")
                .map(ScheduleTables::runStep);
        return new ScheduleTables(
                protocol(steps, settings),
                files
                        .table("pain-monitoring.csv", "band", "above", "up_to", "loading", "used", "basis")
                        .map(row -> row.yes("used") ? List.of(band(row)) : List.<PainMonitoring.Band>of())
                        .stream()
                        .flatMap(List::stream)
                        .toList(),
                files.table(
                                "support-steps.csv",
                                "week",
                                "sessions",
                                "speed_mph",
                                "percent_weight_carried",
                                "bout_min",
                                "bouts")
                        .map(row -> supportStep(row, most)),
                (int) settings.value("support_rest_days"),
                new SupportAccuracy(
                        files.table("support-accuracy.csv", "set_weight_carried", "measured_weight_carried", "basis")
                                .map(row -> new SupportAccuracy.Point(
                                        WeightSupport.carrying(row.requiredNumber("set_weight_carried")),
                                        WeightSupport.carrying(row.requiredNumber("measured_weight_carried"))))),
                most,
                List.of(
                        WeightSupport.takingOff(settings.value("support_usual_taken_off_low_percent")),
                        WeightSupport.takingOff(settings.value("support_usual_taken_off_high_percent"))),
                files.table("support-effects.csv", "id", "measure", "changes", "text", "basis")
                        .map(ScheduleTables::effect),
                new Cue(settings.value("step_rate_percent"), settings.value("step_rate_cap_percent")));
    }

    /** The single numbers of plan and review. */
    public static Settings settings(KnowledgeFiles files) {
        Map<String, Double> values = new LinkedHashMap<>();
        files.table("plan-settings.csv", "name", "value", "unit", "meaning", "basis")
                .map(row -> {
                    Basis.of(row.required("basis"));
                    return values.put(row.required("name"), row.requiredNumber("value"));
                });
        return new Settings(values);
    }

    private static RunProtocol protocol(List<RunStep> steps, Settings settings) {
        return new RunProtocol(
                steps,
                new SessionCap(
                        (int) settings.value("session_cap_percent"),
                        (int) settings.value("session_cap_window_days"),
                        steps.get(0).metres(),
                        (long) settings.value("distance_step_m")),
                (int) settings.value("sessions_per_step"),
                (int) settings.value("rest_days"),
                (int) settings.value("rest_days_after_back"),
                (int) settings.value("backs_before_review"),
                (int) settings.value("schedule_horizon_days"),
                (long) settings.value("log_rounding_m"));
    }

    private static RunStep runStep(Table.Row row) {
        double metres = Units.convert(row.requiredNumber("distance_mi"), "mi", "m")
                .orElseThrow(() -> row.wrong("the distance could not be converted."));
        OptionalDouble run =
                row.required("run_min").equals("continuous") ? OptionalDouble.empty() : row.number("run_min");
        return new RunStep(
                (int) row.requiredNumber("phase"),
                row.number("rpe"),
                row.requiredNumber("walk_min"),
                run,
                Math.round(metres));
    }

    private static PainMonitoring.Band band(Table.Row row) {
        Loading loading =
                switch (row.required("loading")) {
                    case "progress" -> Loading.PROGRESS;
                    case "hold" -> Loading.HOLD;
                    case "back" -> Loading.BACK;
                    default -> throw row.wrong("'" + row.text("loading") + "' should be progress, hold or back.");
                };
        return new PainMonitoring.Band(
                row.required("band"), row.requiredNumber("above"), row.requiredNumber("up_to"), loading);
    }

    private static SupportStep supportStep(Table.Row row, WeightSupport most) {
        WeightSupport support = WeightSupport.carrying(row.requiredNumber("percent_weight_carried"));
        if (support.takesOffMoreThan(most)) {
            throw row.wrong("the step would have " + support.words() + ", the most is " + most.words() + ".");
        }
        double kmh = Units.convert(1, "mi", "km").orElseThrow(() -> row.wrong("the speed could not be converted."));
        return new SupportStep(
                (int) row.requiredNumber("week"),
                required(row, "sessions"),
                NumberRange.of(row, "speed_mph").map(mph -> new NumberRange(mph.low() * kmh, mph.high() * kmh)),
                support,
                required(row, "bout_min"),
                required(row, "bouts"),
                row.requiredNumber("session_min"));
    }

    private static NumberRange required(Table.Row row, String column) {
        return NumberRange.of(row, column)
                .orElseThrow(() -> row.wrong("the cell '" + column + "' is blank; it takes a number or a range."));
    }

    private static SupportEffect effect(Table.Row row) {
        return new SupportEffect(
                row.required("id"),
                row.required("measure"),
                row.required("changes"),
                row.required("text"),
                row.list("source"),
                Basis.of(row.required("basis")));
    }
}
