package org.gerdy.cli.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.rules.LateralKnee;

/** One case after another on one core: the red flags beside two yardsticks, and the whole triage. */
final class CaseTimes {
    private static final int TABLES = 10;

    private final Gerdy gerdy = LateralKnee.gerdy();
    private final KnowledgeBase knowledge = gerdy.knowledge();

    /** Measures on the case files of the repository and prints the tables. */
    void run() {
        redFlags();
        evidence();
    }

    private void redFlags() {
        OrdinaryDrools ordinary = new OrdinaryDrools(knowledge);
        Gerdy onContainer = new Gerdy(LateralKnee.knowledgeBase(OrdinaryStart::container));
        Map<String, Function<CaseFile, Object>> ways = new LinkedHashMap<>();
        ways.put("plain Java: which rows are raised", one -> HandWrittenRedFlags.raised(answers(one)));
        ways.put(
                "the rules as a triage runs them: which rows are raised",
                one -> RulesAlone.raised(knowledge, answers(one)));
        ways.put("ordinary Drools: which rows are raised", one -> ordinary.raised(answers(one)));
        ways.put("whole triage", gerdy::assess);
        ways.put("whole triage, rules from a class path container", onContainer::assess);
        Ratios.print(
                "One case, processor time",
                "us",
                new Passes().microseconds(CaseFiles.all(gerdy), ways),
                List.of("plain Java: which rows are raised", "ordinary Drools: which rows are raised"));
    }

    private void evidence() {
        Gerdy larger = new Gerdy(
                KnowledgeVariant.evidence(knowledge, copied(knowledge.evidence().rows())));
        Map<String, Function<CaseFile, Object>> ways = new LinkedHashMap<>();
        String before = "table as it is";
        ways.put(before, gerdy::assess);
        ways.put("table ten times as large", larger::assess);
        Ratios.print(
                "Whole triage, " + knowledge.evidence().rows().size() + " rows of evidence",
                "us",
                new Passes().microseconds(CaseFiles.all(gerdy), ways),
                List.of(before));
    }

    /** The rows, and nine times the same under names of findings and conditions that no case has. */
    private static List<EvidenceRow> copied(List<EvidenceRow> rows) {
        List<EvidenceRow> all = new ArrayList<>(rows);
        for (int copy = 1; copy < TABLES; copy++) {
            for (EvidenceRow row : rows) {
                all.add(new EvidenceRow(
                        row.finding() + "-copy-" + copy,
                        row.condition() + "-copy-" + copy,
                        row.whenPresent(),
                        row.whenAbsent(),
                        row.cluster(),
                        row.origin(),
                        row.basis(),
                        row.sources(),
                        row.note()));
            }
        }
        return all;
    }

    private Observations answers(CaseFile one) {
        return Observations.of(knowledge.terms(), one, one.latest());
    }
}
