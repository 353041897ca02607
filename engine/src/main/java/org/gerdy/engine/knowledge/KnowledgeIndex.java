package org.gerdy.engine.knowledge;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.casefile.JsonText;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;

/**
 * What is worked out once over the files of a knowledge base: its identity, its files and the card of every rule. The
 * shipped knowledge base carries its index in the jar, so that nothing is parsed or digested at start.
 *
 * @param identity version and digest
 * @param files every file, in order of path
 * @param rules every rule, by id
 */
public record KnowledgeIndex(KnowledgeBase.Identity identity, List<String> files, Map<String, RuleCard> rules) {
    private static final JsonFactory JSON = new JsonFactory();
    private static final String VERSION_FILE = "knowledge/version.csv";

    /** Works the index out. Throws {@link KnowledgeException} naming the file of a fault. */
    public static KnowledgeIndex of(KnowledgeFiles files) {
        try {
            List<String> paths = files.list();
            String version = Table.read(files, VERSION_FILE, List.of("version", "date"))
                    .map(row -> row.required("version"))
                    .get(0);
            Map<String, RuleCard> rules = RuleIndexer.index(files);
            checkSources(files, paths, rules);
            return new KnowledgeIndex(new KnowledgeBase.Identity(version, digest(files, paths)), paths, rules);
        } catch (IOException e) {
            throw new KnowledgeException("The knowledge base could not be read: " + e.getMessage() + ".", e);
        }
    }

    /** SHA-256 over the paths and bytes of these files, in hexadecimal. */
    static String digest(KnowledgeFiles files, List<String> paths) throws IOException {
        Fingerprint fingerprint = new Fingerprint();
        for (String path : paths) {
            try (InputStream in = files.open(path)) {
                fingerprint.add(path.getBytes(StandardCharsets.UTF_8));
                fingerprint.add((byte) 0);
                fingerprint.add(in.readAllBytes());
                fingerprint.add((byte) 0);
            }
        }
        return fingerprint.hex();
    }

    /** A source nobody can look up is no source: every key cited by a rule or a table must be in the bibliography. */
    private static void checkSources(KnowledgeFiles files, List<String> paths, Map<String, RuleCard> rules) {
        Set<String> known =
                new LinkedHashSet<>(files.table("sources.csv", "key").map(row -> row.required("key")));
        for (RuleCard rule : rules.values()) {
            rule.sources().forEach(key -> checkSource(rule.file() + ":" + rule.line(), key, known));
        }
        for (String path : paths) {
            if (path.endsWith(".csv")) {
                Table.read(files, path, List.of()).map(row -> {
                    row.list("source").forEach(key -> checkSource(path + ":" + row.line(), key, known));
                    row.list("sources").forEach(key -> checkSource(path + ":" + row.line(), key, known));
                    return row;
                });
            }
        }
    }

    private static void checkSource(String place, String key, Set<String> known) {
        if (!known.contains(key)) {
            throw new KnowledgeException(
                    place + ": the source '" + key + "' is not in sources.csv; add the work there or correct the key.");
        }
    }

    /** Build step: works out the index of the directory {@code args[0]} and writes it to the file {@code args[1]}. */
    public static void main(String[] args) throws IOException {
        KnowledgeIndex index = of(KnowledgeFiles.in(Path.of(args[0])));
        Path target = Path.of(args[1]);
        Files.createDirectories(target.toAbsolutePath().getParent());
        try (OutputStream out = Files.newOutputStream(target)) {
            index.write(out);
        }
    }

    void write(OutputStream out) throws IOException {
        try (JsonGenerator json = JSON.createGenerator(out)) {
            json.writeStartObject();
            json.writeStringField("version", identity.version());
            json.writeStringField("sha256", identity.sha256());
            JsonText.strings(json, "files", files);
            json.writeArrayFieldStart("rules");
            for (RuleCard rule : rules.values()) {
                json.writeStartObject();
                json.writeStringField("id", rule.id());
                json.writeStringField("name", rule.name());
                json.writeStringField("file", rule.file());
                json.writeNumberField("line", rule.line());
                json.writeStringField("row", rule.row());
                JsonText.strings(json, "sources", rule.sources());
                json.writeStringField("basis", rule.basis().word());
                json.writeStringField("because", rule.because());
                JsonText.strings(json, "reads", rule.reads());
                json.writeStringField(
                        "logic", rule.logic().map(Expression::toString).orElse(""));
                json.writeStringField("text", rule.text());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }
    }

    /** Reads an index written at build time. */
    public static KnowledgeIndex read(InputStream in) throws IOException {
        Map<String, String> texts = new LinkedHashMap<>();
        List<String> files = new ArrayList<>();
        Map<String, RuleCard> rules = new LinkedHashMap<>();
        try (JsonParser json = JSON.createParser(in)) {
            json.nextToken();
            while (json.nextToken() == JsonToken.FIELD_NAME) {
                String field = json.currentName();
                json.nextToken();
                switch (field) {
                    case "files" -> files.addAll(strings(json));
                    case "rules" -> {
                        while (json.nextToken() == JsonToken.START_OBJECT) {
                            RuleCard rule = rule(json);
                            rules.put(rule.id(), rule);
                        }
                    }
                    default -> texts.put(field, json.getText());
                }
            }
        }
        return new KnowledgeIndex(
                new KnowledgeBase.Identity(texts.getOrDefault("version", ""), texts.getOrDefault("sha256", "")),
                List.copyOf(files),
                rules);
    }

    private static RuleCard rule(JsonParser json) throws IOException {
        Map<String, String> texts = new LinkedHashMap<>();
        Map<String, List<String>> lists = new LinkedHashMap<>();
        while (json.nextToken() == JsonToken.FIELD_NAME) {
            String field = json.currentName();
            if (json.nextToken() == JsonToken.START_ARRAY) {
                lists.put(field, strings(json));
            } else {
                texts.put(field, json.getText());
            }
        }
        return new RuleCard(
                texts.getOrDefault("id", ""),
                texts.getOrDefault("name", ""),
                texts.getOrDefault("file", ""),
                Integer.parseInt(texts.getOrDefault("line", "0")),
                texts.getOrDefault("row", ""),
                lists.getOrDefault("sources", List.of()),
                Basis.of(texts.getOrDefault("basis", "judgement")),
                texts.getOrDefault("because", ""),
                new LinkedHashSet<>(lists.getOrDefault("reads", List.of())),
                Optional.of(texts.getOrDefault("logic", ""))
                        .filter(logic -> !logic.isEmpty())
                        .map(Expression::parse),
                texts.getOrDefault("text", ""));
    }

    private static List<String> strings(JsonParser json) throws IOException {
        List<String> values = new ArrayList<>();
        while (json.nextToken() != JsonToken.END_ARRAY) {
            values.add(json.getText());
        }
        return values;
    }
}
