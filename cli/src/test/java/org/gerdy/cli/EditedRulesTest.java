package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An edited copy of the knowledge base runs in place of the shipped one, and says clearly what is wrong with it. */
class EditedRulesTest {
    private static final Path SHIPPED = Run.ROOT.resolve("rules/src/main/resources/org/gerdy/rules");
    private static final String MISSES = Run.boundary("film-rule-age-misses");

    @TempDir
    private static Path home;

    private static String homeBefore = "";

    @TempDir
    private Path copy;

    /** Compiled rules are kept under the user's home; the tests have one of their own. */
    @BeforeAll
    static void liveInAnEmptyHome() {
        homeBefore = System.getProperty("user.home");
        System.setProperty("user.home", home.toString());
    }

    @AfterAll
    static void goBackHome() {
        System.setProperty("user.home", homeBefore);
    }

    private Path copied() throws IOException {
        try (Stream<Path> paths = Files.walk(SHIPPED)) {
            for (Path path : paths.filter(Files::isRegularFile).toList()) {
                Path target = copy.resolve(SHIPPED.relativize(path).toString());
                Files.createDirectories(target.getParent());
                Files.copy(path, target);
            }
        }
        return copy;
    }

    private void edit(String file, String before, String after) throws IOException {
        copied();
        editAgain(file, before, after);
    }

    private void editAgain(String file, String before, String after) throws IOException {
        Path path = copy.resolve(file);
        String text = Files.readString(path);
        assertThat(text).contains(before);
        Files.writeString(path, text.replace(before, after));
    }

    private Run triage(String file) {
        return Run.of("triage", "--format=json", "--rules", copy.toString(), file);
    }

    private void refused(String start) {
        Run run = triage(Run.DEMO);
        assertThat(run.code()).as(run.err()).isEqualTo(1);
        assertThat(run.out()).isEmpty();
        assertThat(run.err().strip().lines()).singleElement().satisfies(line -> assertThat(line)
                .startsWith("The knowledge base cannot be used: " + start));
        assertThat(run.isCivil()).as(run.err()).isTrue();
    }

    @Test
    void anUntouchedCopyGivesTheSameResultAndTheSameDigest() throws IOException {
        copied();
        assertThat(triage(Run.DEMO)).isEqualTo(Run.of("triage", "--format=json", Run.DEMO));
    }

    @Test
    void anAuditTellsWhatAChangedScoreFactorAndPlanItemDoWithTheirCause() throws IOException {
        edit("knowledge/scores.csv", "bone stress:..2|image:3..", "bone stress:..3|image:4..");
        editAgain(
                "knowledge/factors.csv",
                "hip-abductor-weakness,lower,percent,15,25,",
                "hip-abductor-weakness,lower,percent,40,60,");
        editAgain(
                "knowledge/plan-items.csv", "None needed.,None needed.,none,", "None needed.,None needed.,sex=female,");
        Run run = Run.of(
                "audit",
                "--rules",
                copy.toString(),
                "--against",
                "shipped",
                Run.DEMO,
                Run.ROOT.resolve("cases/published/p012.yaml").toString());
        assertThat(run.out())
                .contains("Urgency fell in no case")
                .contains("scores.csv: bone-stress-score (1)")
                .contains("published-p012: score bone-stress-score: 3..8 image  ->  3..8")
                .contains("factors.csv: hip-abductor-strength (1)")
                .contains("demo-marlow: factor hip-abductor-strength: borderline  ->  not-found")
                .contains("plan-items.csv: symptom-diary (1)")
                .contains("demo-marlow: plan symptom-diary: given  ->  none");
    }

    @Test
    void aPlanThatChangesForSeveralReasonsIsPutUnderTheOneThatMovedIt() throws IOException {
        edit("plan/teaching.drl", "take(\"expected-course\"", "take(\"load-teaching\"");
        editAgain(
                "knowledge/plan-items.csv",
                "7,,,None needed.,None needed.,none,,,expert-opinion",
                "7,,,None needed.,None needed.,sex=female,,,expert-opinion");
        editAgain("knowledge/stages.csv", "irritable,irritable,", "irritable,easily stirred,");
        Run run = Run.of("audit", "--rules", copy.toString(), "--against", "shipped", Run.DEMO);
        String causes = run.out()
                .substring(
                        run.out().indexOf("Conclusions that changed, by cause"),
                        run.out().indexOf("Every case gets what it expects"));
        assertThat(causes.lines().skip(2).filter(line -> !line.isBlank()))
                .containsExactly(
                        "  teaching.drl: plan-expected-course (1)",
                        "      demo-marlow: plan expected-course: given  ->  none",
                        "  plan-items.csv: symptom-diary (1)",
                        "      demo-marlow: plan symptom-diary: given  ->  none");
    }

    @Test
    void aCutOffEditedInATableChangesTheOutcomeAndTheDigest() throws IOException {
        edit("knowledge/red-flag-terms.csv", "age>=55", "age>=45");
        JsonNode edited = new ObjectMapper().readTree(triage(MISSES).out());
        JsonNode shipped = new ObjectMapper()
                .readTree(Run.of("triage", "--format=json", MISSES).out());
        assertThat(shipped.at("/flags/1/id").asText()).isEqualTo("possible-fracture");
        assertThat(shipped.at("/flags/1/rows/0/state").asText()).isNotEqualTo("raised");
        assertThat(edited.at("/flags/1/rows/0/state").asText()).isEqualTo("raised");
        assertThat(edited.at("/knowledge/sha256")).isNotEqualTo(shipped.at("/knowledge/sha256"));
    }

    @Test
    void aRuleThatDoesNotParseIsToldWithFileAndLine() throws IOException {
        edit("redflags/clot.drl", "then\n", "thence\n");
        Run run = triage(Run.DEMO);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).containsPattern("redflags/clot\\.drl:[0-9]+: ");
        assertThat(run.isCivil()).as(run.err()).isTrue();
    }

    @Test
    void aRuleThatReadsNoFindingIsToldWithFileAndLineAndTheNearestId() throws IOException {
        edit("redflags/clot.drl", "id == \"calf-swelling\"", "id == \"calf-sweling\"");
        Run run = triage(Run.DEMO);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err())
                .containsPattern(
                        "redflags/clot\\.drl:[0-9]+: the rule .+ reads 'calf-sweling', which is no finding; did you mean 'calf-swelling'\\?");
    }

    @Test
    void aTableThatNamesNoFindingIsToldWithFileAndLine() throws IOException {
        edit("knowledge/red-flag-terms.csv", "age>=55", "aeg>=55");
        refused("knowledge/red-flag-terms.csv:");
    }

    @Test
    void anExpressionThatDoesNotReadIsToldWithFileAndLine() throws IOException {
        edit("knowledge/red-flags.csv", "calf-swelling=present", "calf-swelling==present");
        refused("knowledge/red-flags.csv:");
    }

    @Test
    void aFindingDefinedTwiceIsToldWithFileAndLine() throws IOException {
        edit("knowledge/findings.csv", "\nsex,context,", "\nage,context,");
        refused("knowledge/findings.csv:3: the finding 'age' is defined twice");
    }

    @Test
    void aKindOfAnswerNobodyKnowsIsToldWithFileAndLine() throws IOException {
        edit("knowledge/findings.csv", ",,number,,years,0,110,", ",,numbr,,years,0,110,");
        refused("knowledge/findings.csv:2: 'numbr' is not a kind of answer");
    }

    @Test
    void aRatioOutsideItsBoundsIsToldWithFileAndLine() throws IOException {
        edit("knowledge/evidence.csv", "iliotibial-band-syndrome,4,1.5,10.7", "iliotibial-band-syndrome,4,5,10.7");
        refused("knowledge/evidence.csv:");
    }

    @Test
    void aDirectoryThatIsNotThereOrIsNoKnowledgeBaseIsTold() {
        Run none = Run.of("triage", "--rules", copy.resolve("none").toString(), Run.DEMO);
        assertThat(none.code()).isEqualTo(1);
        assertThat(none.err()).contains("There is no such directory");
        Run empty = Run.of("triage", "--rules", copy.toString(), Run.DEMO);
        assertThat(empty.code()).isEqualTo(1);
        assertThat(empty.isCivil()).as(empty.err()).isTrue();
        assertThat(empty.err()).contains("Holds no knowledge base");
    }
}
