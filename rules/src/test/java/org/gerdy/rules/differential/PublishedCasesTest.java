package org.gerdy.rules.differential;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.vocabulary.Urgency;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The published reports, each cited in its own file, held to their stated diagnosis and lowest acceptable urgency. */
class PublishedCasesTest {
    private record Report(CaseFile caseFile, JsonNode label, Assessment assessment) {
        boolean danger() {
            return label.path("danger").asBoolean();
        }

        boolean enough() {
            return label.path("enough").asBoolean();
        }

        /** Encoded with an urgency we argue for against the label; the file's notes say why. */
        boolean disputed() {
            return label.path("disputed").asBoolean();
        }

        Urgency lowest() {
            return caseFile.expect().orElseThrow().atLeast().orElseThrow();
        }

        int rank() {
            String condition =
                    caseFile.expect().orElseThrow().within().keySet().iterator().next();
            List<String> order = assessment.candidates().stream()
                    .map(CandidateResult::condition)
                    .toList();
            return order.indexOf(condition) + 1;
        }

        @Override
        public String toString() {
            return caseFile.id() + ": "
                    + assessment.urgency().map(Urgency::word).orElse("open") + ", asked at least " + lowest().word()
                    + ", rank " + rank();
        }
    }

    private static final List<Report> REPORTS = new ArrayList<>();

    @BeforeAll
    static void assessAll() throws Exception {
        Gerdy gerdy = LateralKnee.gerdy();
        YAMLMapper yaml = new YAMLMapper();
        Path directory = Path.of(System.getProperty("gerdy.root"), "cases", "published");
        try (Stream<Path> files = Files.list(directory)) {
            for (Path file : files.filter(path -> path.toString().endsWith(".yaml"))
                    .sorted()
                    .toList()) {
                CaseFile caseFile = gerdy.read(file);
                JsonNode label = yaml.readTree(file.toFile()).path("label");
                REPORTS.add(new Report(caseFile, label, gerdy.assess(caseFile)));
            }
        }
    }

    @Test
    void everyReportIsThere() {
        assertThat(REPORTS).hasSizeGreaterThanOrEqualTo(32);
    }

    @Test
    void noDangerousReportFallsBelowItsLowestUrgencyWhereItSaysEnough() {
        List<Report> below = REPORTS.stream()
                .filter(report -> report.danger() && report.enough())
                .filter(report -> report.assessment().urgency().isEmpty()
                        || report.assessment().urgency().get().compareTo(report.lowest()) < 0)
                .toList();
        assertThat(below).isEmpty();
    }

    @Test
    void theFinalDiagnosisIsInTheFirstThreeForAtLeast85Percent() {
        List<Report> outside =
                REPORTS.stream().filter(report -> report.rank() > 3).toList();
        double part = 1 - (double) outside.size() / REPORTS.size();
        System.out.printf("published reports: %d, in the first three %.1f %%%n", REPORTS.size(), 100 * part);
        outside.stream()
                .sorted(Comparator.comparingInt(Report::rank))
                .forEach(report -> System.out.println("  " + report));
        assertThat(part).isGreaterThanOrEqualTo(0.85);
    }

    @Test
    void atMost15PercentOfBenignReportsAreSentToUrgentOrAbove() {
        List<Report> benign = REPORTS.stream()
                .filter(report -> !report.danger() && !report.disputed())
                .toList();
        List<Report> over = benign.stream()
                .filter(report -> report.assessment()
                                .urgency()
                                .orElse(Urgency.MANAGE_HERE)
                                .compareTo(Urgency.URGENT)
                        >= 0)
                .toList();
        System.out.printf("benign reports: %d, sent to urgent or above %d%n", benign.size(), over.size());
        assertThat((double) over.size() / benign.size()).isLessThanOrEqualTo(0.15);
    }

    @Test
    void noReportIsEverCalledManageHereWithAnOpenScreen() {
        assertThat(REPORTS)
                .filteredOn(report -> !report.assessment().screeningComplete())
                .extracting(report -> report.assessment().urgency())
                .doesNotContain(Optional.of(Urgency.MANAGE_HERE));
    }
}
