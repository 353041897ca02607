package org.gerdy.engine.assessment;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import org.gerdy.engine.casefile.JsonText;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.load.Quantity;
import org.gerdy.engine.load.Spike;

/** Writes a load report as JSON. Fields may be added, never renamed. */
public final class LoadJson {
    private LoadJson() {}

    /** The whole report, indented, with a line feed at the end. */
    public static String pretty(LoadReport report) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = JsonText.generator(out, true)) {
            write(json, report);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out + "\n";
    }

    /** Writes the report as one object. */
    static void write(JsonGenerator json, LoadReport report) throws IOException {
        json.writeStartObject();
        json.writeStringField("first", report.first().toString());
        json.writeStringField("last", report.last().toString());
        json.writeStringField("end", report.end().toString());
        if (report.firstPainful().isPresent()) {
            json.writeStringField("firstPainful", report.firstPainful().get().toString());
        } else {
            json.writeNullField("firstPainful");
        }
        json.writeObjectFieldStart("quantities");
        for (Quantity quantity : report.quantities().values()) {
            json.writeObjectFieldStart(quantity.id());
            json.writeStringField("label", quantity.label());
            JsonText.number(json, "value", quantity.value());
            json.writeStringField("unit", quantity.unit());
            json.writeStringField("remark", quantity.remark());
            json.writeEndObject();
        }
        json.writeEndObject();
        json.writeArrayFieldStart("spikes");
        for (Spike spike : report.spikes()) {
            if (spike.state().compareTo(Spike.State.REFERENCE) > 0) {
                spike(json, spike);
            }
        }
        json.writeEndArray();
        json.writeArrayFieldStart("weeks");
        for (LoadReport.Week week : report.weeks()) {
            json.writeStartObject();
            json.writeStringField("from", week.from().toString());
            json.writeNumberField("metres", week.metres());
            json.writeNumberField("runs", week.runs());
            json.writeNumberField("longest", week.longest());
            json.writeNumberField("unknownDays", week.unknownDays());
            json.writeEndObject();
        }
        json.writeEndArray();
        JsonText.strings(json, "notes", report.notes());
        json.writeEndObject();
    }

    private static void spike(JsonGenerator json, Spike spike) throws IOException {
        json.writeStartObject();
        json.writeStringField("day", spike.day().toString());
        json.writeNumberField("metres", spike.metres());
        json.writeNumberField("longestBefore", spike.reference().orElseThrow());
        JsonText.number(json, "percent", spike.percent());
        json.writeStringField("state", spike.state().word());
        json.writeEndObject();
    }
}
