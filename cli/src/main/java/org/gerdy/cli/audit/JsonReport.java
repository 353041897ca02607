package org.gerdy.cli.audit;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.audit.Against;
import org.gerdy.engine.audit.Audit;
import org.gerdy.engine.audit.Coverage;
import org.gerdy.engine.audit.Difference;
import org.gerdy.engine.audit.Expected;
import org.gerdy.engine.audit.KnowledgeChange;
import org.gerdy.engine.audit.Mutation;
import org.gerdy.engine.audit.SafetyProof;
import org.gerdy.engine.casefile.JsonText;

/** An audit as JSON. */
public final class JsonReport {
    private final JsonGenerator json;

    private JsonReport(JsonGenerator json) {
        this.json = json;
    }

    /** The document, indented, with a line feed at the end. */
    public static String of(Report report) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = JsonText.generator(out, true)) {
            new JsonReport(json).write(report);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out + "\n";
    }

    private void write(Report report) throws IOException {
        json.writeStartObject();
        json.writeObjectFieldStart("knowledge");
        json.writeStringField("version", report.knowledge().identity().version());
        json.writeStringField("sha256", report.knowledge().identity().sha256());
        json.writeEndObject();
        json.writeStringField("result", report.sentence());
        cases(report.audit());
        touched("rules", report.audit().coverage().rules());
        touched("rows", report.audit().coverage().rows());
        touched("instruments", report.audit().coverage().instruments());
        JsonText.strings(json, "evidenceUnguarded", report.audit().coverage().unguardedEvidence());
        if (report.against().isPresent()) {
            against(report.against().get());
        }
        if (report.mutation().isPresent()) {
            mutation(report.mutation().get());
        }
        if (report.proof().isPresent()) {
            proof(report.proof().get());
        }
        json.writeEndObject();
    }

    private void cases(Audit audit) throws IOException {
        json.writeArrayFieldStart("cases");
        for (Audit.Result result : audit.results()) {
            json.writeStartObject();
            json.writeStringField("case", result.auditCase().id());
            json.writeStringField("place", result.auditCase().place());
            json.writeStringField("urgency", Expected.word(result.assessment().urgency()));
            json.writeBooleanField("expects", result.auditCase().expects());
            json.writeArrayFieldStart("differences");
            for (Difference difference : result.differences()) {
                json.writeStartObject();
                json.writeStringField("what", difference.what());
                json.writeStringField("expected", difference.expected());
                json.writeStringField("found", difference.found());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void touched(String name, Map<String, Coverage.Touched> all) throws IOException {
        json.writeArrayFieldStart(name);
        for (Map.Entry<String, Coverage.Touched> one : all.entrySet()) {
            json.writeStartObject();
            json.writeStringField("id", one.getKey());
            JsonText.strings(json, "fire", one.getValue().fire());
            JsonText.strings(json, "justMiss", one.getValue().justMiss());
            json.writeBooleanField("guarded", one.getValue().guarded());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void against(Against against) throws IOException {
        json.writeObjectFieldStart("against");
        json.writeStringField("before", against.before().sha256());
        json.writeStringField("after", against.after().sha256());
        json.writeArrayFieldStart("fell");
        for (Against.Changed one : against.fell()) {
            json.writeString(one.auditCase().id());
        }
        json.writeEndArray();
        json.writeObjectFieldStart("urgency");
        for (Map.Entry<String, Integer> move : against.table().entrySet()) {
            json.writeNumberField(move.getKey(), move.getValue());
        }
        json.writeEndObject();
        json.writeArrayFieldStart("changes");
        for (KnowledgeChange change : against.changes()) {
            json.writeStartObject();
            json.writeStringField("place", change.place());
            json.writeStringField("id", change.id());
            json.writeStringField("kind", change.kind().word());
            json.writeObjectFieldStart("cells");
            for (Map.Entry<String, KnowledgeChange.Cell> cell : change.cells().entrySet()) {
                JsonText.strings(
                        json,
                        cell.getKey(),
                        List.of(cell.getValue().before(), cell.getValue().after()));
            }
            json.writeEndObject();
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeObjectFieldStart("byCause");
        for (Map.Entry<String, List<Against.Effect>> cause : against.byCause().entrySet()) {
            json.writeArrayFieldStart(cause.getKey());
            for (Against.Effect effect : cause.getValue()) {
                json.writeStartObject();
                json.writeStringField("case", effect.caseId());
                json.writeStringField("conclusion", effect.moved().conclusion());
                json.writeStringField("before", effect.moved().before());
                json.writeStringField("after", effect.moved().after());
                json.writeEndObject();
            }
            json.writeEndArray();
        }
        json.writeEndObject();
        json.writeEndObject();
    }

    private void mutation(Mutation mutation) throws IOException {
        json.writeObjectFieldStart("mutation");
        json.writeNumberField("tried", mutation.overall().tried());
        json.writeNumberField("caught", mutation.overall().caught());
        json.writeObjectFieldStart("groups");
        for (Map.Entry<org.gerdy.engine.audit.Mutant.Group, Mutation.Score> score :
                mutation.scores().entrySet()) {
            json.writeObjectFieldStart(score.getKey().word());
            json.writeNumberField("tried", score.getValue().tried());
            json.writeNumberField("caught", score.getValue().caught());
            json.writeEndObject();
        }
        json.writeEndObject();
        JsonText.strings(json, "notCovered", mutation.notCovered());
        json.writeArrayFieldStart("survivors");
        for (Mutation.Outcome outcome : mutation.survivors()) {
            json.writeStartObject();
            json.writeStringField("place", outcome.mutant().place());
            json.writeStringField("change", outcome.mutant().change());
            json.writeStringField("group", outcome.mutant().group().word());
            json.writeNumberField("differed", outcome.differed());
            json.writeNumberField("alike", outcome.alike());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void proof(SafetyProof proof) throws IOException {
        json.writeObjectFieldStart("invariants");
        json.writeBooleanField("hold", proof.holds());
        JsonText.strings(json, "broken", proof.broken());
        json.writeArrayFieldStart("rows");
        for (SafetyProof.Visited row : proof.rows()) {
            json.writeStartObject();
            json.writeStringField("row", row.row());
            json.writeNumberField("combinations", row.combinations());
            json.writeNumberField("comparisons", row.comparisons());
            json.writeBooleanField("complete", row.complete());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }
}
