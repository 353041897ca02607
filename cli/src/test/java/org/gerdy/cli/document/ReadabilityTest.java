package org.gerdy.cli.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.plan.InterimAdvice;
import org.gerdy.engine.plan.PlanItem;
import org.junit.jupiter.api.Test;

class ReadabilityTest {
    /** Read at about age 12. */
    private static final double GRADE = 7;

    @Test
    void theFormulaGivesAValueWorkedByHand() {
        // 6 words, 1 sentence, 6 syllables: 0.39 * 6 + 11.8 - 15.59 = -1.45
        assertThat(Readability.grade(List.of("The cat sat on the mat."))).isCloseTo(-1.45, within(0.001));
        // 4 words, 1 sentence, syllables 1 + 2 + 5 + 2 = 10: 0.39 * 4 + 11.8 * 2.5 - 15.59 = 15.47
        assertThat(Readability.grade(List.of("The clever examination matters.")))
                .isCloseTo(15.47, within(0.001));
    }

    @Test
    void everyHandoutReadsAtAboutAgeTwelve() {
        for (CaseFile caseFile : Patients.all()) {
            List<String> pieces = words(Patients.DOCUMENTS.handout(Patients.result(caseFile)));
            assertThat(pieces).hasSizeGreaterThan(10);
            assertThat(Readability.grade(pieces)).as(caseFile.id()).isLessThanOrEqualTo(GRADE);
        }
    }

    @Test
    void everyPatientSentenceTheTablesHoldReadsAtAboutAgeTwelveTogether() {
        List<String> items = Patients.GERDY.careTables().plan().items().stream()
                .map(PlanItem::patientWords)
                .toList();
        List<String> advice = Patients.GERDY.careTables().plan().interim().stream()
                .map(InterimAdvice::patientWords)
                .flatMap(text -> Arrays.stream(text.split("\\|")))
                .toList();
        assertThat(Readability.grade(items)).isLessThanOrEqualTo(GRADE);
        assertThat(Readability.grade(advice)).isLessThanOrEqualTo(GRADE);
        assertThat(items)
                .allSatisfy(text ->
                        assertThat(Readability.grade(List.of(text))).as(text).isLessThanOrEqualTo(10));
        assertThat(advice)
                .allSatisfy(text ->
                        assertThat(Readability.grade(List.of(text))).as(text).isLessThanOrEqualTo(10));
    }

    private static List<String> words(Document handout) {
        List<String> pieces = new ArrayList<>(handout.footer());
        for (Document.Section section : handout.sections()) {
            pieces.add(section.heading());
            for (Block block : section.blocks()) {
                if (block instanceof Document.Para para) {
                    pieces.add(para.text());
                } else if (block instanceof Document.Lead lead) {
                    pieces.add(lead.text());
                } else if (block instanceof Document.Heading heading) {
                    pieces.add(heading.text());
                } else if (block instanceof Document.Bullets bullets) {
                    pieces.addAll(bullets.items());
                } else if (block instanceof Document.Picture picture) {
                    pieces.add(picture.caption());
                } else if (block instanceof Document.Card card) {
                    pieces.add(card.title());
                    pieces.addAll(card.lines());
                }
            }
        }
        return pieces;
    }
}
