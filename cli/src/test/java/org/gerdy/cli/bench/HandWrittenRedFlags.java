package org.gerdy.cli.bench;

import java.util.ArrayList;
import java.util.List;
import org.gerdy.engine.casefile.Observations;

/**
 * The red flags written out by hand as plain Java, without a rule engine: the yardstick of the benchmarks. A test holds
 * it against the rules.
 */
final class HandWrittenRedFlags {
    private HandWrittenRedFlags() {}

    /** The ids of the rows raised. */
    static List<String> raised(Observations answers) {
        List<String> raised = new ArrayList<>();
        new HandWrittenInjury(answers).addTo(raised);
        new HandWrittenIllness(answers).addTo(raised);
        new HandWrittenOther(answers).addTo(raised);
        return raised;
    }
}
