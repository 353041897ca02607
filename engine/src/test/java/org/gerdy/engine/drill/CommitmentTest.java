package org.gerdy.engine.drill;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import java.util.Set;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

class CommitmentTest {
    private static Commitment of(Map<String, Double> confidences) {
        return new Commitment(Urgency.URGENT, confidences, Set.of(), Set.of(), Set.of());
    }

    @Test
    void nobodyIsMoreThanCertain() {
        assertThatThrownBy(() -> of(Map.of("a", 0.7, "b", 0.4))).hasMessageContaining("more than 1");
        assertThatThrownBy(() -> of(Map.of("a", 1.2))).hasMessageContaining("between 0 and 1");
        assertThatThrownBy(() -> of(Map.of("a", -0.1))).hasMessageContaining("between 0 and 1");
    }
}
