package org.gerdy.cli;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;

/** What was typed for one measure, as a case of one visit, so that it is checked by the same rules as a case file. */
final class MeasureCase {
    private final MeasureDefinition measure;
    private final MeasureCommand typed;

    MeasureCase(MeasureDefinition measure, MeasureCommand typed) {
        this.measure = measure;
        this.typed = typed;
    }

    /** The case. Throws {@link MendableException} with what was typed wrongly. */
    CaseFile read(Gerdy gerdy) throws MendableException {
        byte[] json = json(gerdy.knowledge().factors().settings()).getBytes(StandardCharsets.UTF_8);
        return gerdy.read("command line", new ByteArrayInputStream(json));
    }

    private String json(FactorTables.Settings names) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.writeStartObject();
            json.writeNumberField("gerdy", 1);
            json.writeStringField("case", "measure");
            json.writeObjectFieldStart("patient");
            Map<String, String> findings = Map.of(
                    "age", names.ageFinding(),
                    "sex", names.sexFinding(),
                    "mass", names.massFinding(),
                    "height", names.heightFinding());
            for (Map.Entry<String, String> said : typed.person().entrySet()) {
                json.writeStringField(findings.getOrDefault(said.getKey(), said.getKey()), said.getValue());
            }
            json.writeEndObject();
            json.writeArrayFieldStart("visits");
            json.writeStartObject();
            json.writeStringField("date", "2000-01-01");
            json.writeStringField("side", typed.painfulSide());
            json.writeObjectFieldStart("measures");
            if (!measure.id().equals(names.massIndexMeasure())) {
                measure(json);
            }
            json.writeEndObject();
            json.writeEndObject();
            json.writeEndArray();
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    private void measure(JsonGenerator json) throws IOException {
        json.writeObjectFieldStart(measure.id());
        for (Map.Entry<String, String> said : typed.setUp().entrySet()) {
            json.writeStringField(said.getKey(), said.getValue());
        }
        if (!typed.pain().isEmpty()) {
            json.writeObjectFieldStart("pain");
            for (Map.Entry<String, String> said : typed.pain().entrySet()) {
                json.writeStringField(said.getKey(), said.getValue());
            }
            json.writeEndObject();
        }
        for (String side : measure.perSide() ? List.of("left", "right") : List.of("trials")) {
            String readings = typed.readings(side);
            if (!readings.isBlank()) {
                json.writeFieldName(side);
                readings(json, readings);
            }
        }
        json.writeEndObject();
    }

    private void readings(JsonGenerator json, String text) throws IOException {
        if (measure.kind() == MeasureKind.CHOICE || measure.kind() == MeasureKind.GRADE) {
            json.writeString(text.strip());
            return;
        }
        List<String> names = measure.kind().series();
        if (names.size() == 1) {
            list(json, text);
            return;
        }
        String[] series = text.split("/", -1);
        json.writeStartObject();
        for (int i = 0; i < series.length; i++) {
            json.writeFieldName(i < names.size() ? names.get(i) : "set-" + (i + 1));
            list(json, series[i]);
        }
        json.writeEndObject();
    }

    private static void list(JsonGenerator json, String text) throws IOException {
        json.writeStartArray();
        for (String reading : text.split(",", -1)) {
            json.writeString(reading.strip());
        }
        json.writeEndArray();
    }
}
