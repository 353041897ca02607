package org.gerdy.cli.bench;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gerdy.rules.LateralKnee;
import org.openjdk.jmh.runner.RunnerException;

/** The case files of the repository, one after another on one core. */
final class CaseTimes {
    /** Measures and prints the tables. */
    void run() throws RunnerException {
        Map<String, String> ways = new LinkedHashMap<>();
        ways.put("plain Java: which rows are raised", "plainJava");
        ways.put("the rules as a triage runs them: which rows are raised", "rules");
        ways.put("ordinary Drools: which rows are raised", "ordinaryDrools");
        ways.put("whole triage", "wholeTriage");
        ways.put("whole triage, rules from a class path container", "wholeTriageOnContainer");
        Ratios.print(
                "One case, processor time",
                "us",
                Rounds.microseconds(OneCase.FILES, ways),
                List.of("plain Java: which rows are raised", "ordinary Drools: which rows are raised"));

        Map<String, String> tables = new LinkedHashMap<>();
        String before = "table as it is";
        tables.put(before, "wholeTriage");
        tables.put("table ten times as large", "wholeTriageOnLargerTable");
        int rows = LateralKnee.gerdy().knowledge().evidence().rows().size();
        Ratios.print(
                "Whole triage, " + rows + " rows of evidence",
                "us",
                Rounds.microseconds(OneCase.FILES, tables),
                List.of(before));
    }
}
