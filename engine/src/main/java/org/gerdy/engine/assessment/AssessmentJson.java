package org.gerdy.engine.assessment;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.List;
import org.gerdy.engine.casefile.JsonText;
import org.gerdy.engine.vocabulary.Urgency;

/** Writes an assessment as JSON: the contract other programs read. Fields may be added, never renamed. */
public final class AssessmentJson {
    private AssessmentJson() {}

    /** Indented, with a line feed at the end. */
    public static String pretty(Assessment assessment) {
        return write(assessment, true) + "\n";
    }

    /** On one line, without a line feed. */
    public static String line(Assessment assessment) {
        return write(assessment, false);
    }

    /** Further fields of a result, written between the referrals and the scores. */
    public interface Extra {
        /** Writes the fields. */
        void write(JsonGenerator json) throws IOException;
    }

    /** Writes to {@code out} with further fields and leaves it open. */
    public static void write(Assessment assessment, Extra extra, Writer out, boolean pretty) throws IOException {
        try (JsonGenerator json = JsonText.generator(out, pretty)) {
            new Body(json, extra).assessment(assessment);
        }
    }

    /** Writes the reasons of a conclusion as a field of this name. */
    public static void reasons(JsonGenerator json, String name, List<Reason> reasons) throws IOException {
        new Body(json, ignored -> {}).reasons(name, reasons);
    }

    private static String write(Assessment assessment, boolean pretty) {
        StringWriter out = new StringWriter();
        try {
            write(assessment, out, pretty);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    /** Writes to {@code out} and leaves it open. */
    public static void write(Assessment assessment, Writer out, boolean pretty) throws IOException {
        write(assessment, ignored -> {}, out, pretty);
    }

    /** The fields, in the order of the contract. */
    private static final class Body {
        private final JsonGenerator json;
        private final Extra extra;

        Body(JsonGenerator json, Extra extra) {
            this.json = json;
            this.extra = extra;
        }

        void assessment(Assessment assessment) throws IOException {
            json.writeStartObject();
            json.writeStringField("case", assessment.caseId());
            json.writeStringField("visit", assessment.visit().toString());
            json.writeStringField("side", assessment.side().word());
            json.writeObjectFieldStart("knowledge");
            json.writeStringField("version", assessment.knowledge().version());
            json.writeStringField("sha256", assessment.knowledge().sha256());
            json.writeEndObject();
            urgency("urgency", assessment.urgency().orElse(null));
            urgency("couldBecome", assessment.couldBecome().orElse(null));
            screening(assessment);
            json.writeArrayFieldStart("flags");
            for (Flag flag : assessment.flags()) {
                flag(flag);
            }
            json.writeEndArray();
            json.writeObjectFieldStart("population");
            json.writeStringField("id", assessment.population().id());
            json.writeStringField("label", assessment.population().label());
            reasons(List.of(assessment.population().reason()));
            json.writeEndObject();
            json.writeArrayFieldStart("candidates");
            for (CandidateResult candidate : assessment.candidates()) {
                candidate(candidate);
            }
            json.writeEndArray();
            factors(assessment.factors());
            if (assessment.load().isPresent()) {
                json.writeFieldName("load");
                LoadJson.write(json, assessment.load().get());
            }
            referrals(assessment.referrals());
            extra.write(json);
            scores(assessment.scores());
            decisions(assessment.decisionRules());
            JsonText.strings(json, "contradictions", assessment.clashes());
            if (assessment.decision().isPresent()) {
                json.writeObjectFieldStart("decision");
                json.writeStringField(
                        "urgency", assessment.decision().get().urgency().word());
                json.writeStringField("reason", assessment.decision().get().reason());
                json.writeEndObject();
            }
            JsonText.strings(json, "cautions", assessment.cautions());
            json.writeEndObject();
        }

        private void screening(Assessment assessment) throws IOException {
            json.writeObjectFieldStart("screening");
            json.writeBooleanField("complete", assessment.screeningComplete());
            json.writeArrayFieldStart("open");
            for (Flag flag : assessment.openFlags()) {
                json.writeStartObject();
                json.writeStringField("flag", flag.id());
                urgency("couldBecome", flag.couldBecome().orElse(null));
                JsonText.strings(json, "ask", flag.ask());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }

        private void flag(Flag flag) throws IOException {
            json.writeStartObject();
            json.writeStringField("id", flag.id());
            json.writeStringField("label", flag.label());
            json.writeStringField("state", flag.state().word());
            urgency("urgency", flag.urgency().orElse(null));
            if (flag.highest().isPresent()) {
                json.writeStringField("within", flag.highest().get().within());
                json.writeStringField("action", flag.highest().get().action());
                reasons(flag.highest().get().reasons());
            } else {
                json.writeNullField("within");
                json.writeNullField("action");
                reasons(List.of());
            }
            json.writeArrayFieldStart("rows");
            for (Flag.Row row : flag.rows()) {
                json.writeStartObject();
                json.writeStringField("row", row.id());
                json.writeStringField("state", row.state().word());
                urgency("urgency", row.urgency());
                if (row.state() == FlagState.RAISED) {
                    reasons(row.reasons());
                }
                if (!row.ask().isEmpty()) {
                    JsonText.strings(json, "ask", row.ask());
                }
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }

        private void candidate(CandidateResult candidate) throws IOException {
            json.writeStartObject();
            json.writeStringField("condition", candidate.condition());
            json.writeStringField("name", candidate.name());
            JsonText.number(json, "share", candidate.share());
            JsonText.number(json, "low", candidate.low());
            JsonText.number(json, "high", candidate.high());
            json.writeStringField("standing", candidate.standing().word());
            json.writeBooleanField("mustNotMiss", candidate.mustNotMiss());
            json.writeStringField("disposition", candidate.disposition());
            weights("for", candidate.supporting());
            weights("against", candidate.opposing());
            JsonText.strings(json, "settle", candidate.settle());
            json.writeEndObject();
        }

        private void weights(String name, List<CandidateResult.Weight> weights) throws IOException {
            json.writeArrayFieldStart(name);
            for (CandidateResult.Weight weight : weights) {
                json.writeStartObject();
                json.writeStringField("finding", weight.finding());
                json.writeStringField("state", weight.present() ? "present" : "absent");
                JsonText.number(json, "lr", weight.ratio());
                json.writeBooleanField("counted", weight.counted());
                json.writeStringField("basis", weight.basis().word());
                JsonText.strings(json, "sources", weight.sources());
                json.writeEndObject();
            }
            json.writeEndArray();
        }

        private void factors(List<FactorResult> factors) throws IOException {
            json.writeArrayFieldStart("factors");
            for (FactorResult factor : factors) {
                json.writeStartObject();
                json.writeStringField("id", factor.id());
                json.writeStringField("label", factor.label());
                json.writeStringField("domain", factor.domain());
                json.writeStringField("verdict", factor.verdict().word());
                JsonText.number(json, "value", factor.value());
                json.writeStringField("unit", factor.unit());
                json.writeStringField("seen", factor.seen());
                json.writeStringField("norm", factor.norm());
                JsonText.number(json, "error", factor.error());
                json.writeStringField("reliability", factor.reliability());
                json.writeStringField("tie", factor.tie());
                json.writeStringField("association", factor.association());
                reasons(factor.reasons());
                json.writeEndObject();
            }
            json.writeEndArray();
        }

        private void referrals(List<ReferralResult> referrals) throws IOException {
            json.writeArrayFieldStart("referrals");
            for (ReferralResult referral : referrals) {
                json.writeStartObject();
                json.writeStringField("id", referral.id());
                json.writeStringField("label", referral.label());
                json.writeStringField("about", referral.about());
                urgency("urgency", referral.urgency());
                json.writeStringField("within", referral.within());
                json.writeStringField("action", referral.action());
                reasons(referral.reasons());
                json.writeEndObject();
            }
            json.writeEndArray();
        }

        private void scores(List<ScoreResult> scores) throws IOException {
            json.writeArrayFieldStart("scores");
            for (ScoreResult score : scores) {
                json.writeStartObject();
                json.writeStringField("id", score.id());
                json.writeStringField("label", score.label());
                json.writeBooleanField("applicable", score.applicable());
                JsonText.number(json, "low", score.low());
                JsonText.number(json, "high", score.high());
                if (score.band().isPresent()) {
                    json.writeStringField("band", score.band().get());
                } else {
                    json.writeNullField("band");
                }
                JsonText.strings(json, "unanswered", score.unanswered());
                JsonText.strings(json, "sources", score.sources());
                json.writeEndObject();
            }
            json.writeEndArray();
        }

        private void decisions(List<DecisionResult> decisions) throws IOException {
            json.writeArrayFieldStart("decisionRules");
            for (DecisionResult decision : decisions) {
                json.writeStartObject();
                json.writeStringField("id", decision.id());
                json.writeStringField("label", decision.label());
                json.writeStringField("outcome", decision.outcome().word());
                JsonText.strings(json, "met", decision.met());
                JsonText.strings(json, "unanswered", decision.unanswered());
                json.writeStringField("means", decision.means());
                JsonText.strings(json, "sources", decision.sources());
                json.writeEndObject();
            }
            json.writeEndArray();
        }

        private void reasons(List<Reason> reasons) throws IOException {
            reasons("reasons", reasons);
        }

        private void reasons(String name, List<Reason> reasons) throws IOException {
            json.writeArrayFieldStart(name);
            for (Reason reason : reasons) {
                json.writeStartObject();
                json.writeStringField("rule", reason.rule());
                json.writeStringField("because", reason.because());
                json.writeArrayFieldStart("findings");
                for (Reason.Read read : reason.findings()) {
                    json.writeStartObject();
                    json.writeStringField("id", read.id());
                    json.writeStringField("value", read.value());
                    json.writeEndObject();
                }
                json.writeEndArray();
                JsonText.strings(json, "sources", reason.sources());
                json.writeStringField("basis", reason.basis().word());
                json.writeEndObject();
            }
            json.writeEndArray();
        }

        private void urgency(String name, @org.jspecify.annotations.Nullable Urgency urgency) throws IOException {
            if (urgency == null) {
                json.writeNullField(name);
            } else {
                json.writeStringField(name, urgency.word());
            }
        }
    }
}
