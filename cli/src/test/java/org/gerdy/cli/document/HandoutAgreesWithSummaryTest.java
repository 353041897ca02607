package org.gerdy.cli.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

class HandoutAgreesWithSummaryTest {
    private static final Pattern DATE = Pattern.compile("[0-9]{1,2} [A-Z][a-z]+ 20[0-9]{2}");

    @Property(tries = 150)
    void noHandoutContradictsItsSummary(@ForAll int start) {
        CaseFile base = Patients.demo("review.yaml");
        agrees(disturbed(base, new Random(start)));
    }

    @Test
    void theFourPatientsAgree() {
        Patients.all().forEach(HandoutAgreesWithSummaryTest::agrees);
    }

    @Test
    void theComparisonSeesPlansWithItemsAndWithoutAndSchedules() {
        int active = 0;
        int dated = 0;
        int interim = 0;
        for (int i = 0; i < 60; i++) {
            CaseFile caseFile = disturbed(Patients.demo("review.yaml"), new Random(i));
            VisitResult result = Patients.result(caseFile);
            active += result.aftercare().active().isPresent() ? 1 : 0;
            dated += result.aftercare().returning().isPresent() ? 1 : 0;
            interim += result.aftercare().interim().isPresent() ? 1 : 0;
        }
        assertThat(List.of(active, dated, interim)).allMatch(count -> count > 3);
    }

    private static void agrees(CaseFile caseFile) {
        VisitResult result = Patients.result(caseFile);
        String handout = Rendering.text(Patients.DOCUMENTS.handout(result)).replaceAll("\\s+", " ");
        String summary = Rendering.text(
                        Patients.DOCUMENTS.summary(result, Patients.observations(caseFile, caseFile.latest())))
                .replaceAll("\\s+", " ");
        boolean above = result.assessment()
                .urgency()
                .filter(urgency -> urgency.compareTo(Urgency.ROUTINE_REFERRAL) > 0)
                .isPresent();
        boolean complete = result.assessment().screeningComplete();
        assertThat(result.aftercare().interim().isPresent()).isEqualTo(above || !complete);
        if (above || !complete) {
            assertThat(summary).contains("Interim advice only");
            assertThat(handout).doesNotContain("We found none today").doesNotContain("How much:");
            for (PlanItem item : Patients.GERDY.careTables().plan().items()) {
                assertThat(handout).doesNotContain(item.patientWords());
            }
        } else {
            Plan.Active active = result.aftercare().active().orElseThrow();
            Set<String> given = new HashSet<>();
            active.items().forEach(chosen -> {
                given.add(chosen.item().id());
                assertThat(handout).contains(chosen.item().patientWords());
                assertThat(summary).contains(chosen.item().label());
            });
            for (PlanItem item : Patients.GERDY.careTables().plan().items()) {
                if (!given.contains(item.id())) {
                    assertThat(handout).doesNotContain(item.patientWords());
                }
            }
            assertThat(handout.contains("We found none today"))
                    .isEqualTo(result.assessment().raisedFlags().isEmpty());
        }
        assertThat(handout).contains("Get help at once");
        Matcher dates = DATE.matcher(handout.replaceFirst("Case [^,]+, [A-Za-z]+ [0-9]+ [A-Za-z]+ 20[0-9]{2}", ""));
        while (dates.find()) {
            assertThat(summary).contains(dates.group());
        }
    }

    /** The last visit with some answers taken away and some turned round. */
    private static CaseFile disturbed(CaseFile base, Random random) {
        Visit last = base.latest();
        Map<String, Recorded> findings = new LinkedHashMap<>();
        int harm = random.nextInt(4);
        last.findings().forEach((id, recorded) -> {
            int dice = random.nextInt(120);
            if (dice >= harm) {
                findings.put(id, dice < 3 * harm ? turned(recorded) : recorded);
            }
        });
        List<Visit> visits = new ArrayList<>(base.visits());
        visits.set(
                visits.size() - 1,
                new Visit(
                        last.date(),
                        last.side(),
                        findings,
                        "",
                        last.decision(),
                        last.measures(),
                        last.runs(),
                        last.runLog(),
                        last.plan(),
                        last.review()));
        return new CaseFile(base.id(), "", "", base.patient(), visits, base.expect());
    }

    private static Recorded turned(Recorded recorded) {
        if (recorded instanceof Recorded.Whole whole) {
            return new Recorded.Whole(turned(whole.answer()));
        }
        Recorded.Sides sides = (Recorded.Sides) recorded;
        return new Recorded.Sides(
                sides.left().map(HandoutAgreesWithSummaryTest::turned),
                sides.right().map(HandoutAgreesWithSummaryTest::turned));
    }

    private static Answer turned(Answer answer) {
        return answer == Answer.State.ABSENT
                ? Answer.State.PRESENT
                : answer == Answer.State.PRESENT ? Answer.State.ABSENT : answer;
    }
}
