package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.gerdy.engine.knowledge.KnowledgeCheck;
import org.junit.jupiter.api.Test;

/** The shipped knowledge base passes its own look-over; a fault here fails the build. */
class KnowledgeCheckTest {
    @Test
    void theShippedKnowledgeBaseHasNoFault() {
        assertThat(KnowledgeCheck.of(LateralKnee.knowledgeBase(), LateralKnee.files()))
                .filteredOn(KnowledgeCheck.Remark::fault)
                .isEmpty();
    }
}
