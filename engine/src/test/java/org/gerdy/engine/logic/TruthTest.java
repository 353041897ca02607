package org.gerdy.engine.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gerdy.engine.logic.Truth.FALSE;
import static org.gerdy.engine.logic.Truth.TRUE;
import static org.gerdy.engine.logic.Truth.UNKNOWN;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The strong three-valued tables of Kleene, Introduction to Metamathematics, 1952, section 64 (recalled). */
class TruthTest {
    @ParameterizedTest(name = "{0} and {1} is {2}, {0} or {1} is {3}")
    @CsvSource({
        "TRUE, TRUE, TRUE, TRUE",
        "TRUE, FALSE, FALSE, TRUE",
        "TRUE, UNKNOWN, UNKNOWN, TRUE",
        "FALSE, TRUE, FALSE, TRUE",
        "FALSE, FALSE, FALSE, FALSE",
        "FALSE, UNKNOWN, FALSE, UNKNOWN",
        "UNKNOWN, TRUE, UNKNOWN, TRUE",
        "UNKNOWN, FALSE, FALSE, UNKNOWN",
        "UNKNOWN, UNKNOWN, UNKNOWN, UNKNOWN"
    })
    void twoValuesCombineAsInTheTable(Truth a, Truth b, Truth and, Truth or) {
        assertThat(a.and(b)).isEqualTo(and);
        assertThat(a.or(b)).isEqualTo(or);
    }

    @ParameterizedTest(name = "not {0} is {1}")
    @CsvSource({"TRUE, FALSE", "FALSE, TRUE", "UNKNOWN, UNKNOWN"})
    void theOppositeOfUnknownStaysUnknown(Truth value, Truth opposite) {
        assertThat(value.not()).isEqualTo(opposite);
    }

    @Property
    void negationTurnsAndIntoOr(@ForAll Truth a, @ForAll Truth b) {
        assertThat(a.and(b).not()).isEqualTo(a.not().or(b.not()));
    }

    @Property
    void learningMoreNeverTurnsADecidedValueAround(@ForAll Truth a, @ForAll Truth b) {
        if (a.and(UNKNOWN) != UNKNOWN) {
            assertThat(a.and(b)).isEqualTo(a.and(UNKNOWN));
        }
        if (a.or(UNKNOWN) != UNKNOWN) {
            assertThat(a.or(b)).isEqualTo(a.or(UNKNOWN));
        }
    }

    @ParameterizedTest
    @CsvSource({"true, TRUE", "false, FALSE"})
    void aPlainBooleanIsNeverUnknown(boolean value, Truth truth) {
        assertThat(Truth.of(value)).isEqualTo(truth).isIn(TRUE, FALSE);
    }
}
