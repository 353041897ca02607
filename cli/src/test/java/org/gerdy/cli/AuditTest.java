package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.audit.Audit;
import org.gerdy.engine.audit.AuditCase;
import org.gerdy.engine.audit.CaseSet;
import org.gerdy.engine.audit.Drafts;
import org.gerdy.engine.audit.Mutant;
import org.gerdy.engine.audit.Mutants;
import org.gerdy.engine.audit.Mutation;
import org.gerdy.engine.audit.SafetyProof;
import org.gerdy.engine.audit.Watcher;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicPlanner;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AuditTest {
    private static Gerdy gerdy;
    private static List<AuditCase> cases;

    @BeforeAll
    static void read() throws Exception {
        gerdy = LateralKnee.gerdy();
        cases = CaseSet.read(gerdy.reader(), List.of(Ran.root("cases").toString()));
    }

    @Test
    void the_written_logic_of_the_rules_concludes_what_the_compiled_rules_conclude_on_every_case() {
        LogicReasoner logic = new LogicReasoner(gerdy.knowledge());
        assertThat(logic.notCovered()).allMatch(AuditTest::isOfThePlan);
        for (AuditCase one : cases) {
            assertThat(AssessmentJson.line(
                            logic.assess(one.caseFile(), one.caseFile().latest())))
                    .as(one.id())
                    .isEqualTo(AssessmentJson.line(gerdy.assess(one.caseFile())));
        }
    }

    @Test
    void the_written_logic_of_the_plan_rules_makes_the_plan_the_compiled_rules_make() {
        PlanTables tables = gerdy.careTables().plan();
        LogicPlanner logic = new LogicPlanner(gerdy.knowledge(), tables);
        assertThat(logic.notCovered()).isEmpty();
        int active = 0;
        for (AuditCase one : cases) {
            if (!one.id().startsWith("pin-") || one.id().startsWith("pin-plan-")) {
                VisitResult visit = gerdy.visit(one.caseFile(), one.caseFile().latest());
                Plan plan = logic.plan(
                        visit.assessment(), one.observations(gerdy.knowledge().terms()));
                assertThat(plan).as(one.id()).isEqualTo(visit.aftercare().plan());
                active += plan instanceof Plan.Active ? 1 : 0;
            }
        }
        assertThat(active).isGreaterThan(100);
    }

    private static boolean isOfThePlan(String rule) {
        return gerdy.knowledge().rule(rule).file().startsWith("plan/");
    }

    @Test
    void every_teaching_case_gets_all_it_expects() {
        List<AuditCase> teaching =
                cases.stream().filter(one -> one.id().startsWith("teaching-")).toList();
        assertThat(teaching).hasSizeGreaterThanOrEqualTo(60);
        for (Audit.Result result : Audit.run(gerdy, teaching, Watcher.NOBODY).results()) {
            assertThat(result.differences()).as(result.auditCase().id()).isEmpty();
        }
    }

    @Test
    void every_rule_over_findings_and_every_red_flag_row_has_a_case_that_fires_it_and_one_that_just_misses() {
        Audit audit = Audit.run(gerdy, cases, Watcher.NOBODY);
        // Plan rules follow triage and have their own tests.
        assertThat(audit.coverage().unguardedRules())
                .filteredOn(rule -> !isOfThePlan(rule))
                .isEmpty();
        assertThat(audit.coverage().unguardedRows()).isEmpty();
        assertThat(audit.coverage().unguardedEvidence()).isEmpty();
        assertThat(audit.coverage().unguardedInstruments()).isEmpty();
        assertThat(audit.results())
                .filteredOn(result -> result.auditCase().id().startsWith("pin-"))
                .hasSizeGreaterThan(2000)
                .allMatch(Audit.Result::holds);
    }

    /** All slips in the thorough build, one in forty otherwise. */
    @Test
    void the_cases_catch_nearly_every_slip() {
        List<Mutant> all = Mutants.of(gerdy.knowledge(), gerdy.careTables().plan());
        int step = Ran.thorough() ? 1 : 40;
        Mutation mutation = tried(
                IntStream.range(0, all.size() / step)
                        .mapToObj(i -> all.get(i * step))
                        .toList(),
                cases);
        Map<Mutant.Group, Mutation.Score> scores = mutation.scores();
        assertThat(scores.get(Mutant.Group.RED_FLAGS).part()).isGreaterThanOrEqualTo(0.95);
        assertThat(scores.get(Mutant.Group.REFERRALS).part()).isGreaterThanOrEqualTo(0.95);
        assertThat(mutation.overall().part()).isGreaterThanOrEqualTo(0.85);
        assertThat(mutation.overall().tried()).isGreaterThan(250);
    }

    private static Mutation tried(List<Mutant> mutants, List<AuditCase> against) {
        return Mutation.run(gerdy.knowledge(), gerdy.careTables().plan(), mutants, against, Watcher.NOBODY);
    }

    private static Mutant slip(String place, String change) {
        return Mutants.of(gerdy.knowledge(), gerdy.careTables().plan()).stream()
                .filter(one -> one.place().equals(place) && one.change().equals(change))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void a_slip_that_moves_its_red_flag_under_no_answers_is_told_from_one_that_cases_could_catch() {
        List<Mutation.Outcome> survivors = tried(
                        List.of(
                                slip(
                                        "row locked-knee/block-after-injury-or-locking",
                                        "need forgotten: extension-block"),
                                slip("row bone-tumour/cancer-with-bone-features", "need forgotten: symptom-duration"),
                                slip("row septic-joint/weak-immunity", "urgency lowered to manage-here")),
                        List.of())
                .survivors();
        assertThat(survivors).extracting(Mutation.Outcome::cannotBeTold).containsExactly(true, false, false);
        // Three findings, each there, not there or not asked.
        assertThat(survivors.get(0).alike()).isEqualTo(27);
    }

    @Test
    void a_draft_catches_the_slip_it_was_written_for_under_an_id_no_case_has() throws Exception {
        Mutant slip = slip("row bone-tumour/cancer-with-bone-features", "need forgotten: symptom-duration");
        List<AuditCase> unaware = cases.stream()
                .filter(one -> one.id().endsWith("cancer-with-bone-features-1"))
                .toList();
        assertThat(unaware).hasSize(1);
        Drafts.Drafted drafted = Drafts.of(
                gerdy.knowledge(),
                gerdy.careTables().plan(),
                tried(List.of(slip), unaware).survivors(),
                unaware,
                Watcher.NOBODY);
        String line = drafted.files().get("red-flags.jsonl").get(0);
        AuditCase draft = new AuditCase("draft", gerdy.reader().read("draft", line.getBytes(StandardCharsets.UTF_8)));
        assertThat(draft.id()).isNotEqualTo(unaware.get(0).id());
        assertThat(tried(List.of(slip), List.of(draft)).survivors()).isEmpty();
    }

    @Test
    void no_answer_forgotten_reassures_and_no_danger_sign_lowers_urgency() {
        SafetyProof proof = SafetyProof.run(
                gerdy.knowledge(), gerdy.careTables().plan(), Ran.thorough() ? 400_000 : 400, 1, Watcher.NOBODY);
        assertThat(proof.broken()).isEmpty();
        assertThat(proof.combinations()).isGreaterThan(10_000);
    }

    @Test
    void an_audit_over_no_cases_is_wrong_usage() {
        assertThat(Ran.gerdy("audit").code()).isEqualTo(2);
    }

    @Test
    void a_pattern_that_matches_nothing_is_a_fault() {
        Ran ran = Ran.gerdy("audit", Ran.root("cases") + "/nothing-*.yaml");
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err()).contains("No case file matches");
    }

    @Test
    void a_case_that_differs_is_told_with_what_it_expected_and_got(@TempDir Path directory) throws Exception {
        Path file = directory.resolve("case.yaml");
        Files.writeString(file, """
                gerdy: 1
                case: wrong-expectation
                visits:
                  - date: 2026-03-02
                    side: left
                    findings: {chest-symptoms: present}
                expect: {urgency: routine-referral}
                """);
        Ran ran = Ran.gerdy(
                "audit",
                file.toString(),
                "--html",
                directory.resolve("a.html").toString(),
                "--junit",
                directory.resolve("a.xml").toString(),
                "--json",
                directory.resolve("a.json").toString());
        assertThat(ran.code()).isEqualTo(3);
        assertThat(ran.out()).contains("urgency: expected routine-referral, found emergency");
        assertThat(Files.readString(directory.resolve("a.xml"))).contains("failures=\"1\"");
        assertThat(Files.readString(directory.resolve("a.json"))).contains("\"expected\" : \"routine-referral\"");
        assertThat(Files.readString(directory.resolve("a.html")))
                .startsWith("<!DOCTYPE html>")
                .doesNotContain("http://")
                .doesNotContain("https://");
    }

    @Test
    void scores_and_decision_rules_are_held_against_what_a_case_expects(@TempDir Path directory) throws Exception {
        Path file = directory.resolve("case.yaml");
        String text = """
                gerdy: 1
                case: instruments
                visits:
                  - date: 2026-03-02
                    side: left
                    findings:
                      focal-bony-tenderness: present
                      prior-bsi: absent
                      pes-cavus: present
                      gradual-onset-load-increase: present
                      groin-pain: absent
                      thigh-pain: absent
                      acute-injury: absent
                expect:
                  scores: {bone-stress-score: 6 image, clot-score: none}
                  decision-rules: {five-item-rule: not-applicable}
                """;
        Files.writeString(file, text);
        assertThat(Ran.gerdy("audit", file.toString()).out()).contains("Every case gets what it expects");

        Files.writeString(file, text.replace("6 image", "5 image").replace("not-applicable", "negative"));
        Ran differs = Ran.gerdy("audit", file.toString());
        assertThat(differs.code()).isEqualTo(3);
        assertThat(differs.out())
                .contains("scores: expected bone-stress-score 5 image, found bone-stress-score 6 image")
                .contains("decision-rules: expected five-item-rule negative, found five-item-rule not-applicable");

        Files.writeString(file, text.replace("clot-score:", "clot-skore:"));
        Ran unknown = Ran.gerdy("audit", file.toString());
        assertThat(unknown.code()).isEqualTo(1);
        assertThat(unknown.err()).contains("There is no score 'clot-skore'; did you mean 'clot-score'?");
    }

    @Test
    void factors_and_plan_items_are_held_against_what_a_case_expects(@TempDir Path directory) throws Exception {
        Path demo = Path.of(Ran.root("cases") + "/demo");
        Files.copy(demo.resolve("marlow-runs.csv"), directory.resolve("marlow-runs.csv"));
        Path file = directory.resolve("case.yaml");
        String text = Files.readString(demo.resolve("first-visit.yaml"));
        Files.writeString(file, text);
        assertThat(Ran.gerdy("audit", file.toString()).code()).isZero();

        Files.writeString(
                file,
                text.replace("session-spike: contributes", "session-spike: not-found")
                        .replace("plan: [clam,", "plan: [graded-return,")
                        .replace("not-plan: [graded-return]", "not-plan: [two-leg-bridge]"));
        Ran differs = Ran.gerdy("audit", file.toString());
        assertThat(differs.code()).isEqualTo(3);
        assertThat(differs.out())
                .contains("factors: expected session-spike not-found, found session-spike contributes")
                .contains("plan: expected graded-return, found")
                .contains("not-plan: expected not two-leg-bridge, found two-leg-bridge");

        Files.writeString(file, text.replace("session-spike:", "session-spik:").replace("[clam,", "[clams,"));
        Ran unknown = Ran.gerdy("audit", file.toString());
        assertThat(unknown.code()).isEqualTo(1);
        assertThat(unknown.err())
                .contains("There is no contributing factor 'session-spik'; did you mean 'session-spike'?")
                .contains("There is no plan item 'clams'; did you mean 'clam'?");
    }
}
