package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import org.gerdy.engine.assessment.Flag;

/** The rules, written to be read, against the expressions of the table, decided by a second reading of them. */
class RedFlagOracleTest {
    private static final Map<String, Integer> SEEN = new TreeMap<>();

    private static final int MORE = 20_000;

    @Provide
    Arbitrary<RandomCase> cases() {
        return RandomCase.any();
    }

    @Property
    void everyRowComesOutAsItsExpressionsSay(@ForAll("cases") RandomCase one) {
        compare(one);
    }

    private static void compare(RandomCase one) {
        Map<String, String> expected = RandomCase.ORACLE.states(one.side(), one.answers());
        Map<String, String> actual = states(one);
        actual.forEach((row, state) -> SEEN.merge(row + " " + state, 1, Integer::sum));
        if (!actual.equals(expected)) {
            String row = expected.keySet().stream()
                    .filter(id -> !expected.get(id).equals(actual.get(id)))
                    .findFirst()
                    .orElseThrow();
            RandomCase least = one.smallest(smaller -> !RandomCase.ORACLE
                    .states(smaller.side(), smaller.answers())
                    .get(row)
                    .equals(states(smaller).get(row)));
            fail(
                    "%s should be %s and is %s for %s",
                    row,
                    RandomCase.ORACLE.states(least.side(), least.answers()).get(row),
                    states(least).get(row),
                    least);
        }
    }

    /** A comparison that never meets a raised row proves nothing; a rare row gets more cases until it was met. */
    @AfterContainer
    static void everyRowWasSeenRaisedAndNotRaised() {
        Random random = new Random(1);
        for (int more = 0; more < MORE && !allRaised(); more++) {
            compare(RandomCase.made(random));
        }
        for (Oracle.Row row : RandomCase.ORACLE.rows()) {
            assertThat(SEEN).as("the cases raise every row at least once").containsKey(row.id() + " raised");
            assertThat(SEEN.keySet().stream().filter(key -> key.startsWith(row.id() + " ") && !key.endsWith(" raised")))
                    .as("and leave it unraised: " + row.id())
                    .isNotEmpty();
        }
    }

    private static boolean allRaised() {
        return RandomCase.ORACLE.rows().stream().allMatch(row -> SEEN.containsKey(row.id() + " raised"));
    }

    static Map<String, String> states(RandomCase one) {
        Map<String, String> states = new LinkedHashMap<>();
        for (Flag flag : one.assessed().flags()) {
            for (Flag.Row row : flag.rows()) {
                states.put(row.id(), row.state().word());
            }
        }
        Map<String, String> ordered = new LinkedHashMap<>();
        RandomCase.ORACLE.rows().forEach(row -> ordered.put(row.id(), states.get(row.id())));
        assertThat(ordered).as("rows of the table").hasSameSizeAs(states);
        return ordered;
    }
}
