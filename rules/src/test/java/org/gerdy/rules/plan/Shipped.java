package org.gerdy.rules.plan;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.fact.FactorFinding;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Table;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.plan.ScheduleTables;
import org.gerdy.engine.reasoning.PlanReasoner;
import org.gerdy.engine.reasoning.Reasoner;
import org.gerdy.engine.review.ReviewTables;
import org.gerdy.rules.LateralKnee;

/** The shipped knowledge base with its plan tables, and an invented runner whose screening is complete. */
final class Shipped {
    static final KnowledgeBase KNOWLEDGE = LateralKnee.knowledgeBase();
    static final PlanTables PLAN = PlanTables.load(
            LateralKnee.files(),
            KNOWLEDGE.catalogue(),
            new PlanTables.Ids(
                    KNOWLEDGE.rowsByFlag().keySet(), KNOWLEDGE.conditions().keySet()));
    static final ScheduleTables SCHEDULES = ScheduleTables.load(LateralKnee.files());
    static final ReviewTables REVIEW = ReviewTables.load(
            LateralKnee.files(), KNOWLEDGE.catalogue(), KNOWLEDGE.conditions().keySet());
    static final PlanReasoner REASONER = new PlanReasoner(KNOWLEDGE, PLAN);

    private static final String RUNNER = """
            age 34;sex female;activity running;history-of-cancer absent;bone-health-risk absent;prior-bsi absent;\
            low-energy-availability absent;acute-injury absent;four-steps-now present;pain-out-of-proportion absent;\
            chest-symptoms absent;saddle-or-sphincter-change absent;leg-neuro-symptoms absent;back-pain absent;pain-radiates-down-leg absent;\
            systemic-symptoms absent;pain-rest-or-night absent;prior-knee-procedure absent;symptom-duration 5;\
            morning-stiffness none;pain-after-minutes-stops-within-minutes absent;groin-pain absent;\
            foot-cold-pale absent;calf-swelling absent;dorsiflexion-weakness absent;warmth-palpable absent;\
            redness-joint absent;effusion-any absent;extension-block absent;focal-bony-tenderness absent;\
            mass-palpable absent;hip-ir-limited absent;hip-ir-pain absent;lumbar-movement-reproduces-pain absent;\
            pes-cavus absent;pain-site lateral-epicondyle;onset-type gradual;\
            onset-after-repeatable-distance present;eases-with-rest present;tender-lateral-epicondyle present;\
            noble-compression present;varus-laxity-30 absent;mcmurray-lateral absent;\
            tender-lateral-joint-line absent;worse-downhill present;hop-test absent""";

    private static final String COMFORTABLE = """
            pain-on-weight-bearing absent;pain-settles-overnight present;worse-descending-stairs absent;limp absent;\
            pain-at-rest 0;pain-worst-24h 1;distance-to-pain 6;pain-free-run-minutes 30;anticoagulant absent;\
            long-term-steroid absent;immunosuppressed absent;diabetes absent;heart-or-pressure-unstable absent;\
            nsaid-risk absent;pregnancy-status no;treatment-area-skin-broken absent;cold-reaction absent;\
            tape-skin-reaction absent;support-seal-problem absent;support-stop-unable absent;implanted-device absent""";

    private Shipped() {}

    /** A runner with every danger question answered and nothing about the plan. */
    static Map<String, Recorded> screened() {
        return answers(RUNNER);
    }

    /** The same with walking comfortable and every contraindication asked. */
    static Map<String, Recorded> settling() {
        Map<String, Recorded> all = screened();
        all.putAll(answers(COMFORTABLE));
        return all;
    }

    /** The same, able to walk briskly for half an hour. */
    static Map<String, Recorded> returning() {
        Map<String, Recorded> all = settling();
        all.putAll(answers("brisk-walk-30-min present;supported-treadmill-available present"));
        return all;
    }

    /** The same as settling, with walking painful. */
    static Map<String, Recorded> irritable() {
        Map<String, Recorded> all = settling();
        all.putAll(answers("pain-on-weight-bearing present"));
        return all;
    }

    static Map<String, Recorded> answers(String text) {
        Map<String, Recorded> all = new LinkedHashMap<>();
        for (String pair : text.split(";")) {
            String[] parts = pair.strip().split(" ", 2);
            all.put(parts[0], new Recorded.Whole(answer(parts[0], parts[1])));
        }
        return all;
    }

    static Answer answer(String finding, String text) {
        return switch (KNOWLEDGE.catalogue().finding(finding).orElseThrow().kind()) {
            case YES_NO -> Answer.State.valueOf(text.toUpperCase(java.util.Locale.ROOT));
            case CHOICE -> new Answer.Choice(text);
            case DATE -> new Answer.Day(LocalDate.parse(text));
            case NUMBER, SCALE_0_10, DURATION -> new Answer.Quantity(Double.parseDouble(text), text);
        };
    }

    static Observations observations(Map<String, Recorded> answers) {
        return Observations.of(KNOWLEDGE.catalogue(), Side.LEFT, answers);
    }

    static Plan plan(Map<String, Recorded> answers, FactorFinding... factors) {
        CaseFile caseFile = caseFile(answers);
        return REASONER.plan(caseFile, caseFile.latest(), List.of(factors));
    }

    static Assessment assess(Map<String, Recorded> answers) {
        CaseFile caseFile = caseFile(answers);
        return new Reasoner(KNOWLEDGE).assess(caseFile, caseFile.latest());
    }

    private static CaseFile caseFile(Map<String, Recorded> answers) {
        Visit visit = new Visit(LocalDate.of(2026, 9, 14), Side.LEFT, answers, "", Optional.empty());
        return new CaseFile("invented", "", "", Map.of(), List.of(visit), Optional.empty());
    }

    static Plan.Active active(Map<String, Recorded> answers, FactorFinding... factors) {
        Plan plan = plan(answers, factors);
        if (plan instanceof Plan.Active active) {
            return active;
        }
        throw new AssertionError("Expected a plan with items, got " + plan);
    }

    static List<String> ids(Plan.Active plan) {
        return plan.items().stream().map(chosen -> chosen.item().id()).toList();
    }

    static List<PlanItem> items(Plan.Active plan) {
        return plan.items().stream().map(Plan.Chosen::item).toList();
    }

    /** Every row of a table, as cells by column. */
    static List<Map<String, String>> rows(String table, String... columns) {
        List<Map<String, String>> rows = new ArrayList<>();
        Table.read(LateralKnee.files(), "knowledge/" + table, List.of(columns)).map(row -> {
            Map<String, String> cells = new LinkedHashMap<>();
            for (String column : columns) {
                cells.put(column, row.text(column));
            }
            return rows.add(cells);
        });
        return rows;
    }
}
