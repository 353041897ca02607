package org.gerdy.engine.audit;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.gerdy.engine.casefile.JsonText;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;

/** Writes a drafted case as one line of JSON, with a title that says what it pins. */
final class DraftLine {
    private static final JsonFactory JSON = new JsonFactory();

    private DraftLine() {}

    static String line(String id, String protects, Observations observations, Map<String, List<String>> expect) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(out)) {
            json.writeStartObject();
            json.writeNumberField("gerdy", 1);
            json.writeStringField("case", id);
            List<String> shown = observations.recorded().keySet().stream()
                    .map(finding -> finding + " " + observations.shown(finding).replace(" left", ""))
                    .toList();
            json.writeStringField(
                    "title",
                    "Pinned as it is: with " + (shown.isEmpty() ? "nothing asked" : String.join(", ", shown)) + ", "
                            + said(expect));
            json.writeStringField("protects", protects);
            json.writeArrayFieldStart("visits");
            json.writeStartObject();
            json.writeStringField("date", "2026-03-02");
            json.writeStringField("side", "left");
            json.writeObjectFieldStart("findings");
            for (Map.Entry<String, Recorded> answer : observations.recorded().entrySet()) {
                json.writeFieldName(answer.getKey());
                JsonText.answer(json, answer.getValue());
            }
            json.writeEndObject();
            json.writeEndObject();
            json.writeEndArray();
            expectation(json, expect);
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    private static String said(Map<String, List<String>> expect) {
        List<String> parts = new ArrayList<>();
        expect.forEach((field, values) -> parts.add(field.replace('-', ' ') + " "
                + String.join(
                        " and ",
                        values.stream().map(value -> value.replace("=", " ")).toList())));
        return String.join("; ", parts);
    }

    private static void expectation(JsonGenerator json, Map<String, List<String>> expect) throws IOException {
        json.writeObjectFieldStart("expect");
        for (Map.Entry<String, List<String>> entry : expect.entrySet()) {
            switch (entry.getKey()) {
                case "population", "leading" ->
                    json.writeStringField(entry.getKey(), entry.getValue().get(0));
                case "row-urgency", "scores", "decision-rules", "factors" -> {
                    json.writeObjectFieldStart(entry.getKey());
                    for (String pair : entry.getValue()) {
                        String[] parts = pair.split("=", 2);
                        json.writeStringField(parts[0], parts[1]);
                    }
                    json.writeEndObject();
                }
                case "speaks-for", "speaks-against" -> {
                    Map<String, List<String>> byCondition = new TreeMap<>();
                    for (String pair : entry.getValue()) {
                        String[] parts = pair.split("=", 2);
                        byCondition
                                .computeIfAbsent(parts[0], ignored -> new ArrayList<>())
                                .add(parts[1]);
                    }
                    json.writeObjectFieldStart(entry.getKey());
                    for (Map.Entry<String, List<String>> one : byCondition.entrySet()) {
                        JsonText.strings(json, one.getKey(), one.getValue());
                    }
                    json.writeEndObject();
                }
                default -> JsonText.strings(json, entry.getKey(), entry.getValue());
            }
        }
        json.writeEndObject();
    }
}
