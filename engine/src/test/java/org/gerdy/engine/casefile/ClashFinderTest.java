package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

class ClashFinderTest {
    private static List<String> check(String text) {
        return Sample.READER
                .check("case.yaml", new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)))
                .stream()
                .map(Problem::toString)
                .toList();
    }

    @Test
    void tenseFluidInAJointRecordedAsDryIsTold() {
        assertThat(check(Sample.with("fluid: absent\ntense-fluid: present")))
                .contains("case.yaml:8:7: Fluid is tense but recorded as absent; look at both again.")
                .contains(
                        "case.yaml:8:7: 'tense-fluid' present left means 'fluid' is present, but it is recorded absent left.");
    }

    @Test
    void twoFindingsThatCannotBothHoldAreTold() {
        assertThat(check(Sample.with("looks-normal: present\nwarm: present")))
                .containsExactly(
                        "case.yaml:8:7: 'looks-normal' present left and 'warm' present left cannot both hold; look at both again.");
    }

    @Test
    void numbersThatCannotStandTogetherAreToldBySide() {
        assertThat(check(Sample.with("average: 7\npain: 5")))
                .containsExactly("case.yaml:8:7: The average is above the worst; look at both again.");
        assertThat(check(Sample.with("average: 5\npain: 5"))).isEmpty();
    }

    @Test
    void nothingIsHeldAgainstWhatWasNotAsked() {
        assertThat(check(Sample.with("tense-fluid: present"))).isEmpty();
    }

    @Test
    void aClashIsToldAndTheCaseIsStillReadAsWritten() throws Exception {
        CaseFile read = Sample.read(Sample.with("fluid: absent\ntense-fluid: present"));
        assertThat(read.latest().findings()).containsOnlyKeys("fluid", "tense-fluid");
    }
}
