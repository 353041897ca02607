package org.gerdy.rules.differential;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Priors;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The case worked by hand on the method page, to the last digit printed there. The arithmetic here is written out anew. */
class WorkedExampleTest {
    private static final double Z = 1.959963984540054;
    private static final double LAST_DIGIT = 5.1e-7;
    private static final Map<String, String> PAGE = new HashMap<>();
    private static KnowledgeBase knowledge;
    private static Assessment assessment;

    @BeforeAll
    static void readThePage() throws Exception {
        Path root = Path.of(System.getProperty("gerdy.root"));
        rows(root).forEach(cells -> PAGE.put(cells[1].strip(), cells[2].strip()));
        Gerdy gerdy = LateralKnee.gerdy();
        knowledge = gerdy.knowledge();
        CaseFile caseFile = gerdy.read(root.resolve(PAGE.get("case")));
        assessment = gerdy.assess(caseFile);
    }

    private static List<String[]> rows(Path root) throws IOException {
        String page = Files.readString(root.resolve("docs/method.md"));
        String block = page.substring(
                page.indexOf("<!-- worked-example:start -->"), page.indexOf("<!-- worked-example:end -->"));
        return block.lines()
                .filter(line -> line.startsWith("| ") && !line.startsWith("| name"))
                .map(line -> line.split("\\|"))
                .toList();
    }

    @Test
    void thePageNamesThePopulationAndTheNumberOfCandidates() {
        assertThat(assessment.population().id()).isEqualTo(PAGE.get("population"));
        assertThat(assessment.candidates()).hasSize(Integer.parseInt(PAGE.get("candidates")));
    }

    @Test
    void theBandIsWorkedToTheLastDigit() {
        agrees("iliotibial-band-syndrome", List.of("noble-compression", "onset-after-repeatable-distance"));
    }

    @Test
    void theWornMeniscusIsWorkedToTheLastDigit() {
        agrees(
                "lateral-meniscal-tear-degenerative",
                List.of("noble-compression", "onset-after-repeatable-distance", "mcmurray-lateral", "effusion-any"));
    }

    /** Recomputes one condition from its table rows, strongest cluster first, and holds page and program against it. */
    private static void agrees(String condition, List<String> counted) {
        Priors.Prior prior = knowledge.priors().of(assessment.population().id(), condition);
        double before = Math.log(prior.probability() / (1 - prior.probability()));
        double priorDeviation =
                (Math.log(prior.high() / (1 - prior.high())) - Math.log(prior.low() / (1 - prior.low()))) / (2 * Z);
        double[] weights = {1.0, 0.85, 0.7};
        double shift = 0;
        double variance = priorDeviation * priorDeviation;
        CandidateResult result = candidate(condition);
        for (int i = 0; i < counted.size(); i++) {
            String finding = counted.get(i);
            boolean present = result.supporting().stream()
                            .anyMatch(w -> w.finding().equals(finding) && w.present())
                    || result.opposing().stream().anyMatch(w -> w.finding().equals(finding) && w.present());
            EvidenceRow row = knowledge.evidence().about(condition).stream()
                    .filter(one -> one.finding().equals(finding))
                    .findFirst()
                    .orElseThrow();
            EvidenceRow.Ratio ratio = row.ratio(present).orElseThrow();
            double weight = weights[Math.min(i, 2)];
            double error = (Math.log(ratio.high()) - Math.log(ratio.low())) / (2 * Z);
            shift += weight * Math.log(ratio.value());
            variance += weight * weight * error * error;
        }
        double after = before + shift;
        double probability = 1 / (1 + Math.exp(-after));
        double deviation = Math.sqrt(variance);
        double sum = page("sum-of-probabilities");
        double others = sum - probability;
        double own = (1 - probability) * deviation;
        double spread = page("sum-of-spreads") - Math.pow(probability * (1 - probability) * deviation, 2);
        double logit = Math.log(probability / others);
        double shareDeviation = Math.sqrt(own * own + spread / (others * others));
        page(condition, "prior", prior.probability());
        page(condition, "prior-log-odds", before);
        page(condition, "prior-deviation", priorDeviation);
        page(condition, "shift", shift);
        page(condition, "log-odds", after);
        page(condition, "probability", probability);
        page(condition, "deviation", deviation);
        assertThat(page(condition + ".share")).isCloseTo(result.share(), within(LAST_DIGIT));
        assertThat(page(condition + ".low")).isCloseTo(result.low(), within(LAST_DIGIT));
        assertThat(page(condition + ".high")).isCloseTo(result.high(), within(LAST_DIGIT));
        // The sums stand on the page with six digits, which leaves the hand-worked bounds good to four.
        assertThat(probability / sum).isCloseTo(result.share(), within(2e-6));
        assertThat(1 / (1 + Math.exp(-(logit - Z * shareDeviation)))).isCloseTo(result.low(), within(1e-4));
        assertThat(1 / (1 + Math.exp(-(logit + Z * shareDeviation)))).isCloseTo(result.high(), within(1e-4));
    }

    private static void page(String condition, String name, double value) {
        assertThat(page(condition + "." + name)).as(condition + "." + name).isCloseTo(value, within(LAST_DIGIT));
    }

    private static double page(String name) {
        return Double.parseDouble(PAGE.get(name));
    }

    private static CandidateResult candidate(String condition) {
        return assessment.candidates().stream()
                .filter(one -> one.condition().equals(condition))
                .findFirst()
                .orElseThrow();
    }
}
