package org.gerdy.engine.care;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.casefile.JsonText;
import org.gerdy.engine.plan.ClinicianDecision;
import org.gerdy.engine.plan.InterimAdvice;
import org.gerdy.engine.plan.NotAdvised;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.plan.SupportedSchedule;
import org.gerdy.engine.review.Change;
import org.gerdy.engine.review.CourseRow;
import org.gerdy.engine.review.Review;
import org.gerdy.engine.vocabulary.Basis;

/** Writes a visit as JSON: the assessment with plan, schedules and review in their places. */
public final class VisitJson {
    private VisitJson() {}

    /** Indented, with a line feed at the end. */
    public static String pretty(VisitResult result) {
        StringWriter out = new StringWriter();
        try {
            write(result, out, true);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out + "\n";
    }

    /** Writes to {@code out} and leaves it open. */
    public static void write(VisitResult result, Writer out, boolean pretty) throws IOException {
        AssessmentJson.write(result.assessment(), json -> new Fields(json).all(result.aftercare()), out, pretty);
    }

    /** The fields, in the order of the contract. */
    private static final class Fields {
        private final JsonGenerator json;

        Fields(JsonGenerator json) {
            this.json = json;
        }

        void all(Aftercare care) throws IOException {
            json.writeArrayFieldStart("plan");
            if (care.plan() instanceof Plan.Active active) {
                for (Plan.Chosen chosen : active.items()) {
                    item(chosen.item(), care);
                }
            }
            json.writeEndArray();
            detail(care);
            schedule(care);
            review(care);
        }

        private void item(PlanItem item, Aftercare care) throws IOException {
            json.writeStartObject();
            json.writeStringField("item", item.id());
            json.writeStringField("label", item.label());
            json.writeStringField("category", item.category());
            json.writeStringField("dose", item.dose().text());
            json.writeStringField("progression", item.progression());
            json.writeStringField("stop", item.stop());
            json.writeObjectFieldStart("evidence");
            json.writeStringField("strength", item.evidence().strength());
            json.writeStringField("text", item.evidence().text());
            basis(item.evidence().basis(), item.evidence().sources());
            json.writeEndObject();
            AssessmentJson.reasons(json, "reasons", care.reasons().getOrDefault(item.id(), List.of()));
            json.writeEndObject();
        }

        private void detail(Aftercare care) throws IOException {
            json.writeObjectFieldStart("planDetail");
            Optional<Plan.Active> active = care.active();
            if (active.isPresent()) {
                json.writeStringField("stage", active.get().stage());
            } else {
                json.writeNullField("stage");
            }
            AssessmentJson.reasons(json, "stageReasons", care.stageReasons());
            interim(care.interim());
            json.writeArrayFieldStart("heldBack");
            for (Plan.HeldBack held : active.map(Plan.Active::heldBack).orElse(List.of())) {
                json.writeStartObject();
                json.writeStringField("item", held.item().id());
                json.writeStringField("label", held.item().label());
                json.writeStringField("reason", word(held.reason()));
                JsonText.strings(json, "about", held.about());
                AssessmentJson.reasons(
                        json, "reasons", care.reasons().getOrDefault(held.item().id(), List.of()));
                json.writeEndObject();
            }
            json.writeEndArray();
            JsonText.strings(json, "ask", care.ask());
            json.writeArrayFieldStart("notAdvised");
            for (NotAdvised row : active.map(Plan.Active::notAdvised).orElse(List.of())) {
                json.writeStartObject();
                json.writeStringField("id", row.id());
                json.writeStringField("label", row.label());
                json.writeStringField("why", row.why());
                json.writeStringField("instead", row.instead());
                basis(row.basis(), row.sources());
                json.writeEndObject();
            }
            json.writeEndArray();
            clinician(care.plan().clinician());
            json.writeEndObject();
        }

        private void interim(Optional<Plan.Interim> interim) throws IOException {
            if (interim.isEmpty()) {
                json.writeNullField("interim");
                return;
            }
            json.writeObjectFieldStart("interim");
            json.writeStringField("because", interim.get().because());
            json.writeArrayFieldStart("advice");
            for (InterimAdvice row : interim.get().advice()) {
                json.writeStartObject();
                json.writeStringField("id", row.id());
                json.writeStringField("text", row.text());
                basis(row.basis(), row.sources());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }

        private void schedule(Aftercare care) throws IOException {
            if (care.returning().isEmpty()) {
                json.writeNullField("schedule");
            } else {
                Aftercare.Returning returning = care.returning().get();
                json.writeObjectFieldStart("schedule");
                json.writeStringField("ending", word(returning.schedule().ending()));
                json.writeNumberField(
                        "goalMetres", returning.programme().goalMetres().orElse(0));
                json.writeArrayFieldStart("judged");
                for (ReturnSchedule.Judged judged : returning.schedule().judged()) {
                    json.writeStartObject();
                    json.writeStringField("date", judged.run().date().toString());
                    json.writeNumberField("metres", judged.run().metres());
                    json.writeStringField("loading", word(judged.loading()));
                    json.writeBooleanField("overCap", judged.overCap());
                    json.writeEndObject();
                }
                json.writeEndArray();
                json.writeArrayFieldStart("sessions");
                for (ReturnSchedule.Session session : returning.schedule().sessions()) {
                    json.writeStartObject();
                    json.writeStringField("date", session.date().toString());
                    json.writeNumberField("phase", session.step().phase());
                    JsonText.number(json, "walk", session.step().walkMinutes());
                    JsonText.number(json, "run", session.step().runMinutes());
                    json.writeNumberField("metres", session.metres());
                    json.writeBooleanField("shortened", session.shortened());
                    json.writeEndObject();
                }
                json.writeEndArray();
                json.writeEndObject();
            }
            json.writeArrayFieldStart("supported");
            for (SupportedSchedule.Session session :
                    care.supported().map(Aftercare.Supported::sessions).orElse(List.of())) {
                json.writeStartObject();
                json.writeStringField("date", session.date().toString());
                json.writeNumberField("step", session.step().week());
                JsonText.number(
                        json,
                        "percentTakenOff",
                        OptionalDouble.of(session.step().support().percentTakenOff()));
                JsonText.number(
                        json,
                        "percentCarried",
                        OptionalDouble.of(session.step().support().percentOfWeight()));
                json.writeEndObject();
            }
            json.writeEndArray();
            JsonText.strings(json, "undated", care.undated());
            if (care.stepRateTarget().isPresent()) {
                json.writeNumberField("stepRateTarget", care.stepRateTarget().getAsLong());
            }
        }

        private void review(Aftercare care) throws IOException {
            json.writeObjectFieldStart("review");
            if (care.next().date().isPresent()) {
                json.writeStringField("date", care.next().date().get().toString());
            } else {
                json.writeNullField("date");
            }
            json.writeStringField("what", care.next().what());
            JsonText.strings(json, "watch", care.next().watch());
            if (care.review().isPresent()) {
                scores(care.review().get());
            }
            json.writeEndObject();
        }

        private void scores(Review review) throws IOException {
            JsonText.number(json, "weeks", review.weeks());
            json.writeBooleanField("conclusive", review.conclusive());
            JsonText.strings(json, "redFlags", review.redFlags().raised());
            json.writeStringField("response", review.response().word());
            json.writeArrayFieldStart("changes");
            for (Change change : review.changes()) {
                change(change);
            }
            json.writeEndArray();
            JsonText.number(json, "patientView", review.patientView());
            json.writeBooleanField("viewDiffers", review.viewDiffers());
            JsonText.strings(json, "stalled", review.stalled());
            json.writeArrayFieldStart("due");
            for (Review.Due due : review.due()) {
                json.writeStartObject();
                json.writeStringField("id", due.row().id());
                json.writeStringField("text", due.row().text());
                json.writeStringField("action", due.row().action());
                json.writeStringField("within", due.row().within());
                json.writeBooleanField("certain", due.certain());
                JsonText.strings(json, "ask", due.ask());
                basis(due.row().basis(), due.row().sources());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeArrayFieldStart("expected");
            for (CourseRow.Expected expected : review.expected()) {
                json.writeStartObject();
                json.writeStringField("id", expected.id());
                json.writeStringField("text", expected.text());
                json.writeStringField("population", expected.population());
                basis(expected.basis(), expected.sources());
                json.writeEndObject();
            }
            json.writeEndArray();
            clinician(review.clinician());
        }

        private void change(Change change) throws IOException {
            json.writeStartObject();
            json.writeStringField("instrument", change.instrument().id());
            json.writeStringField("label", change.instrument().label());
            json.writeStringField("first", change.first().toString());
            JsonText.number(json, "baseline", change.baseline());
            JsonText.number(json, "now", change.now());
            JsonText.number(json, "gain", change.gain());
            json.writeStringField("verdict", change.verdict().words());
            JsonText.number(json, "mcid", change.threshold().importantPoints());
            JsonText.number(json, "mdc", change.threshold().errorPoints());
            JsonText.number(json, "headroom", change.headroom());
            json.writeBooleanField("untestable", change.untestable());
            json.writeStringField("remark", change.remark());
            json.writeStringField("borrowed", change.threshold().borrowed());
            List<String> sources = java.util.stream.Stream.of(
                            change.threshold().important(), change.threshold().error())
                    .flatMap(Optional::stream)
                    .flatMap(row -> row.sources().stream())
                    .distinct()
                    .toList();
            JsonText.strings(json, "sources", sources);
            json.writeEndObject();
        }

        private void clinician(Optional<ClinicianDecision> decision) throws IOException {
            if (decision.isEmpty()) {
                json.writeNullField("clinician");
                return;
            }
            json.writeObjectFieldStart("clinician");
            json.writeStringField("decision", decision.get().decision());
            json.writeStringField("reason", decision.get().reason());
            json.writeEndObject();
        }

        private void basis(Basis basis, List<String> sources) throws IOException {
            json.writeStringField("basis", basis.word());
            JsonText.strings(json, "sources", sources);
        }

        private static String word(Enum<?> constant) {
            return constant.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        }
    }
}
