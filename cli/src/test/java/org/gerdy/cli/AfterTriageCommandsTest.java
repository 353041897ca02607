package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AfterTriageCommandsTest {
    private static final Path DEMO = Path.of(System.getProperty("gerdy.root"), "cases", "demo");
    private static final String FIRST = DEMO.resolve("first-visit.yaml").toString();
    private static final String REVIEW = DEMO.resolve("review.yaml").toString();

    @TempDir
    private Path directory;

    private record Ran(int code, String out, String err) {}

    private static Ran run(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(new PrintWriter(out), new PrintWriter(err, true), args);
        return new Ran(code, out.toString(), err.toString());
    }

    @Test
    void triageEndsWithAPlanAndADate() {
        Ran ran = run("triage", FIRST);
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("\nPlan\n----\n")
                .contains("Stage: irritable")
                .contains("By Monday 21 September 2026");
    }

    @Test
    void theJsonOfTriageCarriesThePlanAndTheReview() {
        assertThat(run("triage", REVIEW, "--format", "json").out().replaceAll("\\s+", ""))
                .contains("\"plan\":[{", "\"item\":\"graded-return\"", "\"planDetail\":{", "\"ending\":\"goal\"")
                .contains("\"verdict\":\"betterthanerror\"", "\"rule\":\"plan-graded-return\"");
    }

    @Test
    void theCliniciansOwnDecisionStandsBesideTheReviewAndChangesNothing() {
        assertThat(run("review", REVIEW).out())
                .contains("The clinician's own decision", "Keep the schedule")
                .contains("All scores together: better");
    }

    @Test
    void aReviewOfAFirstVisitSaysWhatIsMissing() {
        Ran ran = run("review", FIRST);
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err()).contains("A review needs a visit before");
    }

    @Test
    void aLetterGoesToAKnownServiceOnly() {
        Ran ran = run("letter", FIRST, "--to", "orthopedics");
        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("did you mean 'orthopaedics'?").contains("usual-doctor");
        assertThat(run("letter", FIRST, "--to", "orthopaedics").out())
                .contains("Situation", "Background", "Assessment", "Request", "Not tested", "Why now", "Patient: ____");
    }

    @Test
    void explainShowsTheRuleBehindAPlanItemGivenAndHeldBack() {
        assertThat(run("explain", REVIEW, "graded-return").out())
                .contains("Plan item graded-return: given", "Rule plan-graded-return", "Stage, rule stage-ready");
        assertThat(run("explain", FIRST, "cold-after-load").out()).contains("held back, not asked", "cold-reaction");
    }

    @Test
    void aPdfGoesToAFileAndNeverToTheScreen() throws Exception {
        Path file = directory.resolve("handout.pdf");
        assertThat(run("handout", FIRST, "--format", "pdf", "--out", file.toString())
                        .code())
                .isZero();
        assertThat(new String(Files.readAllBytes(file), 0, 5, StandardCharsets.US_ASCII))
                .isEqualTo("%PDF-");
        Ran ran = run("handout", FIRST, "--format", "pdf");
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err()).contains("--out");
    }

    @Test
    void ordinaryTriageLoadsNothingOfThePdfWriter() throws Exception {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xlog:class+load",
                        "-cp",
                        System.getProperty("java.class.path"),
                        "org.gerdy.cli.Main",
                        "triage",
                        FIRST)
                .redirectErrorStream(true)
                .start();
        String loaded = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor()).isZero();
        assertThat(loaded)
                .contains("org.gerdy.cli.TriageText source:")
                .doesNotContain("com.openhtmltopdf.")
                .doesNotContain("org.apache.pdfbox.")
                .doesNotContain("org.apache.batik.");
    }

    @Test
    void faultsInRunsAndPlanAreToldWithTheirPlace() throws Exception {
        Path file = directory.resolve("case.yaml");
        Files.writeString(file, """
                gerdy: 1
                case: faulty
                visits:
                  - date: 2026-09-14
                    side: left
                    run-log:
                      - {date: 2026-09-20, km: 2}
                      - {date: 2026-09-13, km: 2, pain: 3}
                    plan:
                      return: {start: 2026-09-15, days: [monday], goal: 5}
                """);
        Ran ran = run("check", file.toString());
        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.out())
                .contains(":7:9: The run of 2026-09-20 is after the visit of 2026-09-14")
                .contains(":8:9: The run of 2026-09-13 stands after a later one");
        Files.writeString(file, """
                gerdy: 1
                case: faulty
                visits:
                  - date: 2026-09-14
                    side: left
                    run-log:
                      - {date: 2026-09-13, km: 2, pain: 11, next-morning: fine}
                    plan:
                      return: {start: 2026-09-15, dys: [monday], days: [monday], goal: 5}
                """);
        assertThat(run("check", file.toString()).out())
                .contains(":7:", "'pain' is '11', above the largest it can be")
                .contains("'next-morning' is 'fine'; it takes one of: settled, worse")
                .contains("'dys' is not a key that stands here; did you mean 'days'?");
    }
}
