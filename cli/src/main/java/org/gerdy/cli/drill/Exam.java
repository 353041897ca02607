package org.gerdy.cli.drill;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.casefile.Disk;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.drill.Commitment;
import org.gerdy.engine.knowledge.Fingerprint;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * An exam: the same patients for everybody and one time limit.
 *
 * @param cases numbers of the patients, in order
 * @param minutes time from the first question to handing in
 */
record Exam(List<Long> cases, int minutes) {
    static final ObjectMapper JSON = new ObjectMapper();
    private static final int VERSION = 1;

    /**
     * What one learner did.
     *
     * @param started when the exam was begun
     * @param handedIn when it was handed in; empty while it is still being sat
     * @param work by case number, in the order worked
     * @param sound whether the seal fits what stands in the sheet
     */
    record Sheet(String learner, Instant started, Optional<Instant> handedIn, Map<Long, Work> work, boolean sound) {}

    /** The questions of one case and what was committed to. */
    record Work(List<String> asked, Commitment stated) {}

    static Exam read(Path file) throws MendableException {
        JsonNode root = tree(file, "gerdy-exam");
        List<Long> cases = new ArrayList<>();
        root.path("cases").forEach(one -> cases.add(one.asLong()));
        int minutes = root.path("minutes").asInt();
        if (cases.isEmpty() || minutes <= 0) {
            throw new MendableException(file.toString(), "An exam has cases and a time limit in minutes.");
        }
        return new Exam(List.copyOf(cases), minutes);
    }

    void save(Path file) throws MendableException {
        ObjectNode root = JSON.createObjectNode().put("gerdy-exam", VERSION).put("minutes", minutes);
        ArrayNode list = root.putArray("cases");
        cases.forEach(list::add);
        write(file, root);
    }

    /** The learner's sheet beside the exam. */
    static Path sheet(Path exam, String learner) {
        String name = exam.getFileName().toString().replaceAll("\\.json$", "");
        return exam.resolveSibling(name + "-" + learner + ".sheet.json");
    }

    static Sheet readSheet(Path file) throws MendableException {
        JsonNode root = tree(file, "gerdy-sheet");
        try {
            Map<Long, Work> work = new LinkedHashMap<>();
            for (JsonNode one : root.path("work")) {
                work.put(one.path("case").asLong(), new Work(strings(one.path("asked")), stated(one)));
            }
            JsonNode handed = root.path("handed-in");
            String seal = root.path("seal").asText();
            ObjectNode unsealed = root.deepCopy();
            unsealed.remove("seal");
            return new Sheet(
                    root.path("learner").asText(),
                    Instant.parse(root.path("started").asText()),
                    handed.isTextual() ? Optional.of(Instant.parse(handed.asText())) : Optional.empty(),
                    work,
                    seal.equals(seal(unsealed)));
        } catch (DateTimeException | IllegalArgumentException e) {
            throw new MendableException(file.toString(), "This sheet could not be read: " + e.getMessage() + ".");
        }
    }

    private static Commitment stated(JsonNode one) {
        Map<String, Double> confidences = new LinkedHashMap<>();
        one.path("confidences")
                .properties()
                .forEach(entry ->
                        confidences.put(entry.getKey(), entry.getValue().asDouble()));
        return new Commitment(
                Urgency.of(one.path("urgency").asText())
                        .orElseThrow(() -> new IllegalArgumentException("an urgency is missing")),
                confidences,
                set(one.path("factors")),
                set(one.path("plan")),
                set(one.path("settles")));
    }

    static void saveSheet(Path file, Sheet sheet) throws MendableException {
        ObjectNode root = JSON.createObjectNode()
                .put("gerdy-sheet", VERSION)
                .put("learner", sheet.learner())
                .put("started", sheet.started().toString());
        sheet.handedIn().ifPresent(at -> root.put("handed-in", at.toString()));
        ArrayNode list = root.putArray("work");
        sheet.work().forEach((number, work) -> {
            ObjectNode one = list.addObject().put("case", number);
            ArrayNode asked = one.putArray("asked");
            work.asked().forEach(asked::add);
            one.put("urgency", work.stated().urgency().word());
            ObjectNode confidences = one.putObject("confidences");
            work.stated().confidences().forEach(confidences::put);
            array(one, "factors", work.stated().factors());
            array(one, "plan", work.stated().plan());
            array(one, "settles", work.stated().settles());
        });
        root.put("seal", seal(root));
        write(file, root);
    }

    private static void array(ObjectNode node, String name, Set<String> ids) {
        ArrayNode list = node.putArray(name);
        ids.forEach(list::add);
    }

    /** SHA-256 over the sheet as written, so that a change afterwards shows. It keeps nothing secret. */
    private static String seal(ObjectNode unsealed) {
        return Fingerprint.of(unsealed.toString());
    }

    private static List<String> strings(JsonNode list) {
        List<String> all = new ArrayList<>();
        list.forEach(one -> all.add(one.asText()));
        return all;
    }

    private static Set<String> set(JsonNode list) {
        return new LinkedHashSet<>(strings(list));
    }

    private static JsonNode tree(Path file, String kind) throws MendableException {
        try {
            JsonNode root = JSON.readTree(Files.readAllBytes(file));
            if (root == null || root.path(kind).asInt() != VERSION) {
                throw new MendableException(file.toString(), "This is not a file of the kind '" + kind + "'.");
            }
            return root;
        } catch (IOException e) {
            throw new MendableException(file.toString(), "The file could not be read; check the path.");
        }
    }

    private static void write(Path file, ObjectNode root) throws MendableException {
        try {
            Disk.REAL.replace(file, (root.toPrettyString() + "\n").getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new MendableException(file.toString(), "Could not be written: " + e.getMessage() + ".");
        }
    }
}
