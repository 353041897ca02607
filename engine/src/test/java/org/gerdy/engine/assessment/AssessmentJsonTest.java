package org.gerdy.engine.assessment;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.StringWriter;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

/** The JSON other programs read: fields may be added, never renamed. */
class AssessmentJsonTest {
    private static final Reason REASON = new Reason(
            "some-rule",
            "One is enough",
            List.of(new Reason.Read("warm", "present left")),
            List.of("one1999"),
            Basis.PUBLISHED);

    private static Flag.Row row(FlagState state) {
        return new Flag.Row(
                "some-flag/row",
                "Label",
                state,
                Urgency.SAME_DAY,
                "today",
                "Act.",
                "Why.",
                state == FlagState.RAISED ? List.of(REASON) : List.of(),
                state == FlagState.OPEN ? List.of("warm") : List.of());
    }

    private static Assessment assessment(Optional<Urgency> urgency, List<Flag> flags) {
        return new Assessment(
                "sample",
                LocalDate.of(2026, 3, 2),
                Side.LEFT,
                new KnowledgeBase.Identity("7", "ab".repeat(32)),
                urgency,
                Optional.of(Urgency.EMERGENCY),
                flags,
                new Assessment.ChosenPopulation("everybody", "Everybody", REASON),
                List.of(new CandidateResult(
                        "some-condition",
                        "Some condition",
                        0.623456,
                        0.41,
                        1e-9,
                        CandidateResult.Standing.LEADING,
                        true,
                        "refer",
                        List.of(new CandidateResult.Weight(
                                "warm", true, 3.1, true, Basis.PUBLISHED, List.of("one1999"))),
                        List.of(new CandidateResult.Weight("cold", false, 0.5, false, Basis.JUDGEMENT, List.of())),
                        List.of("swollen"))),
                List.of(new FactorResult(
                        "some-factor",
                        "Some factor",
                        "some domain",
                        FactorVerdict.CONTRIBUTES,
                        OptionalDouble.of(12.345678),
                        "mm",
                        "12.3 mm",
                        "",
                        OptionalDouble.empty(),
                        "",
                        "conflicting",
                        "Studies disagree.",
                        List.of(),
                        List.of(REASON))),
                Optional.empty(),
                List.of(new ReferralResult(
                        "some-threshold",
                        "Label",
                        "some-condition",
                        Urgency.URGENT,
                        "2 weeks",
                        "Refer.",
                        List.of(REASON))),
                List.of(new ScoreResult(
                        "some-score", "Score", true, -2, 1.5, Optional.empty(), List.of("warm"), List.of())),
                List.of(new DecisionResult(
                        "some-decision",
                        "Rule",
                        DecisionResult.Outcome.NOT_APPLICABLE,
                        List.of(),
                        List.of(),
                        "Means.",
                        List.of())),
                List.of("Two answers clash."),
                Optional.of(new CaseFile.Decision(Urgency.URGENT, "seen")),
                List.of("Local codes come first."));
    }

    private static final Flag RAISED = new Flag(
            "some-flag",
            "Label",
            FlagState.RAISED,
            Optional.of(row(FlagState.RAISED)),
            List.of(row(FlagState.RAISED)),
            false,
            List.of(),
            Optional.empty());
    private static final Flag OPEN = new Flag(
            "other-flag",
            "Label",
            FlagState.OPEN,
            Optional.empty(),
            List.of(row(FlagState.OPEN)),
            true,
            List.of("warm"),
            Optional.of(Urgency.SAME_DAY));

    private static JsonNode json(Assessment assessment) throws Exception {
        return new ObjectMapper().readTree(AssessmentJson.pretty(assessment));
    }

    private static List<String> names(JsonNode node) {
        List<String> names = new ArrayList<>();
        node.fieldNames().forEachRemaining(names::add);
        return names;
    }

    @Test
    void everyFieldOfTheContractIsThereByItsName() throws Exception {
        JsonNode json = json(assessment(Optional.of(Urgency.SAME_DAY), List.of(RAISED, OPEN)));
        assertThat(names(json))
                .contains(
                        "case",
                        "visit",
                        "side",
                        "knowledge",
                        "urgency",
                        "screening",
                        "flags",
                        "candidates",
                        "factors",
                        "referrals",
                        "cautions");
        assertThat(names(json.at("/knowledge"))).containsExactly("version", "sha256");
        assertThat(names(json.at("/screening"))).containsExactly("complete", "open");
        assertThat(names(json.at("/screening/open/0"))).contains("flag", "ask");
        assertThat(names(json.at("/flags/0"))).contains("id", "state", "urgency", "within", "action", "reasons");
        assertThat(names(json.at("/flags/0/reasons/0"))).contains("rule", "findings", "sources");
        assertThat(names(json.at("/flags/0/reasons/0/findings/0"))).containsExactly("id", "value");
        assertThat(names(json.at("/candidates/0")))
                .contains("condition", "share", "low", "high", "standing", "for", "against", "settle");
        assertThat(names(json.at("/factors/0")))
                .contains("id", "verdict", "value", "unit", "norm", "error", "association", "reasons");
        assertThat(json.at("/factors/0/verdict").asText()).isEqualTo("contributes");
        assertThat(json.at("/factors/0/value").asDouble()).isEqualTo(12.3457);
        assertThat(json.at("/factors/0/error").isNull()).isTrue();
        assertThat(names(json.at("/candidates/0/for/0"))).contains("finding", "lr", "basis", "sources");
    }

    @Test
    void whatIsOpenIsToldWithWhatToAsk() throws Exception {
        JsonNode json = json(assessment(Optional.of(Urgency.SAME_DAY), List.of(RAISED, OPEN)));
        assertThat(json.at("/screening/complete").asBoolean(true)).isFalse();
        assertThat(json.at("/screening/open/0/flag").asText()).isEqualTo("other-flag");
        assertThat(json.at("/screening/open/0/ask/0").asText()).isEqualTo("warm");
        assertThat(json.at("/flags/1/urgency").isNull()).isTrue();
    }

    @Test
    void noUrgencyIsNullAndNeverAWord() throws Exception {
        JsonNode json = json(assessment(Optional.empty(), List.of(OPEN)));
        assertThat(json.get("urgency").isNull()).isTrue();
        assertThat(json.get("couldBecome").asText()).isEqualTo("emergency");
    }

    @Test
    void aCompleteScreenSaysSo() throws Exception {
        JsonNode json = json(assessment(Optional.of(Urgency.SAME_DAY), List.of(RAISED)));
        assertThat(json.at("/screening/complete").asBoolean(false)).isTrue();
        assertThat(json.at("/screening/open").size()).isZero();
    }

    @Test
    void numbersArePlainWithAtMostFourDecimals() throws Exception {
        String text = AssessmentJson.line(assessment(Optional.empty(), List.of()));
        assertThat(text)
                .contains("\"share\":0.6235,")
                .contains("\"high\":0,")
                .contains("\"low\":-2,")
                .doesNotContainPattern("[0-9]E-?[0-9]");
    }

    @Test
    void bothFormsHoldTheSameAndTheWriterStaysOpen() throws Exception {
        Assessment assessment = assessment(Optional.of(Urgency.SAME_DAY), List.of(RAISED, OPEN));
        assertThat(new ObjectMapper().readTree(AssessmentJson.line(assessment))).isEqualTo(json(assessment));
        StringWriter out = new StringWriter();
        AssessmentJson.write(assessment, out, true);
        out.write("more");
        assertThat(out.toString()).endsWith("}more").doesNotContain("\r");
        assertThat(AssessmentJson.pretty(assessment)).endsWith("}\n");
        assertThat(AssessmentJson.line(assessment)).doesNotContain("\n");
    }

    @Test
    void raisedFlagsAreOrderedByUrgencyThenTable() {
        Flag urgent = new Flag(
                "third",
                "Label",
                FlagState.RAISED,
                Optional.of(new Flag.Row(
                        "third/row",
                        "Label",
                        FlagState.RAISED,
                        Urgency.EMERGENCY,
                        "now",
                        "Act.",
                        "",
                        List.of(REASON),
                        List.of())),
                List.of(),
                false,
                List.of(),
                Optional.empty());
        Assessment assessment = assessment(Optional.of(Urgency.EMERGENCY), List.of(RAISED, OPEN, urgent));
        assertThat(assessment.raisedFlags()).extracting(Flag::id).containsExactly("third", "some-flag");
        assertThat(assessment.openFlags()).containsExactly(OPEN);
        assertThat(assessment.screeningComplete()).isFalse();
    }
}
