package org.gerdy.engine.drill;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.gerdy.engine.casefile.Disk;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.Settings;

/**
 * What one learner has done, under a pseudonym. A file a learner, replaced whole at each save; a file that cannot be read
 * is never written over.
 *
 * @param learner the pseudonym
 * @param played every case, oldest first
 */
public record Progress(String learner, List<Played> played) {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final int VERSION = 1;
    private static final String PSEUDONYM = "[a-z][a-z0-9-]{1,30}";

    /**
     * One case worked.
     *
     * @param causes what the patient had, the first one first; empty when not known
     * @param total points of 100
     * @param parts points and most points by part
     * @param confidences what was stated
     * @param questions how many were asked
     */
    public record Played(
            LocalDate date,
            String caseId,
            List<String> causes,
            String difficulty,
            double total,
            boolean dangerous,
            boolean underTriaged,
            Map<String, double[]> parts,
            Map<String, Double> confidences,
            int questions) {}

    /** Throws {@link MendableException} when a pseudonym holds anything but small letters, digits and hyphens. */
    public static void checkPseudonym(String learner) throws MendableException {
        if (!learner.matches(PSEUDONYM)) {
            throw new MendableException(
                    learner,
                    "A pseudonym has 2 to 31 small letters, digits and hyphens and begins with a letter; never a name.");
        }
    }

    /** The learner's file in this directory. */
    public static Path file(Path directory, String learner) {
        return directory.resolve(learner + ".json");
    }

    /** What is on file; nothing yet when there is no file. Throws {@link MendableException} when it cannot be read. */
    public static Progress read(Path directory, String learner) throws MendableException {
        checkPseudonym(learner);
        Path file = file(directory, learner);
        if (!Files.exists(file)) {
            return new Progress(learner, List.of());
        }
        try {
            JsonNode root = JSON.readTree(Files.readAllBytes(file));
            if (root.path("gerdy-drill").asInt() != VERSION
                    || !root.path("learner").asText().equals(learner)) {
                throw new MendableException(file.toString(), "This is not the progress file of '" + learner + "'.");
            }
            List<Played> played = new ArrayList<>();
            root.path("played").forEach(node -> played.add(played(node)));
            return new Progress(learner, List.copyOf(played));
        } catch (IOException | DateTimeException e) {
            throw new MendableException(
                    file.toString(),
                    "The progress file could not be read and is left as it is; mend it or move it away.");
        }
    }

    private static Played played(JsonNode node) {
        List<String> causes = new ArrayList<>();
        node.path("causes").forEach(cause -> causes.add(cause.asText()));
        Map<String, double[]> parts = new LinkedHashMap<>();
        node.path("parts")
                .properties()
                .forEach(part -> parts.put(part.getKey(), new double[] {
                    part.getValue().path(0).asDouble(), part.getValue().path(1).asDouble()
                }));
        Map<String, Double> confidences = new LinkedHashMap<>();
        node.path("confidences")
                .properties()
                .forEach(one -> confidences.put(one.getKey(), one.getValue().asDouble()));
        return new Played(
                LocalDate.parse(node.path("date").asText()),
                node.path("case").asText(),
                List.copyOf(causes),
                node.path("difficulty").asText(),
                node.path("total").asDouble(),
                node.path("dangerous").asBoolean(),
                node.path("under-triaged").asBoolean(),
                parts,
                confidences,
                node.path("questions").asInt());
    }

    /** With one more case. */
    public Progress with(Played one) {
        List<Played> all = new ArrayList<>(played);
        all.add(one);
        return new Progress(learner, List.copyOf(all));
    }

    /** Saves in this directory, whole or not at all. Throws {@link MendableException} when it cannot. */
    public void save(Path directory) throws MendableException {
        checkPseudonym(learner);
        ObjectNode root = JSON.createObjectNode().put("gerdy-drill", VERSION).put("learner", learner);
        ArrayNode list = root.putArray("played");
        for (Played one : played) {
            ObjectNode node = list.addObject()
                    .put("date", one.date().toString())
                    .put("case", one.caseId())
                    .put("difficulty", one.difficulty())
                    .put("total", rounded(one.total()))
                    .put("dangerous", one.dangerous())
                    .put("under-triaged", one.underTriaged())
                    .put("questions", one.questions());
            ArrayNode causes = node.putArray("causes");
            one.causes().forEach(causes::add);
            ObjectNode parts = node.putObject("parts");
            one.parts()
                    .forEach((part, points) ->
                            parts.putArray(part).add(rounded(points[0])).add(points[1]));
            ObjectNode confidences = node.putObject("confidences");
            one.confidences().forEach(confidences::put);
        }
        try {
            Files.createDirectories(directory);
            Disk.REAL.replace(
                    file(directory, learner), (root.toPrettyString() + "\n").getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new MendableException(
                    file(directory, learner).toString(), "Could not be saved: " + e.getMessage() + ".");
        }
    }

    private static double rounded(double points) {
        return Math.rint(points * 100) / 100;
    }

    /**
     * The grade of the schedule for a score: 5 from the good score on, one less for each further step down; a dangerous
     * case under-triaged is never more than 2, so it starts over.
     */
    public static int grade(Played one, Settings settings) {
        double below = settings.value("repeat-good") - one.total();
        int grade = below <= 0 ? 5 : Math.max(0, 5 - (int) Math.ceil(below / settings.value("repeat-grade-step")));
        return one.dangerous() && one.underTriaged() ? Math.min(2, grade) : grade;
    }

    /** When each condition practised comes back. */
    public Map<String, Repetition> schedule(Settings settings) {
        Map<String, Repetition> schedule = new TreeMap<>();
        for (Played one : played) {
            if (!one.causes().isEmpty()) {
                Repetition before = schedule.getOrDefault(one.causes().get(0), Repetition.fresh(one.date()));
                schedule.put(one.causes().get(0), before.graded(grade(one, settings), one.date()));
            }
        }
        return schedule;
    }

    /** Every confidence stated in a case whose cause is known, and whether it was a cause. */
    public List<Calibration.Forecast> forecasts() {
        List<Calibration.Forecast> forecasts = new ArrayList<>();
        for (Played one : played) {
            if (!one.causes().isEmpty()) {
                one.confidences()
                        .forEach((condition, confidence) -> forecasts.add(new Calibration.Forecast(
                                confidence, one.causes().contains(condition))));
            }
        }
        return forecasts;
    }
}
