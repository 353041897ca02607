package org.gerdy.rules.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.intake.WhatIf;
import org.gerdy.engine.reasoning.Consultation;
import org.gerdy.engine.vocabulary.Urgency;
import org.junit.jupiter.api.Test;

/** What a changed answer would change. */
class WhatIfTest {
    private static CaseFile demo() throws Exception {
        return Cases.GERDY.read(Cases.in("demo").stream()
                .filter(path -> path.endsWith("first-visit.yaml"))
                .findFirst()
                .orElseThrow());
    }

    @Test
    void everySingleChangeToldIsWhatTheFullAssessmentFinds() throws Exception {
        CaseFile demo = demo();
        try (Consultation consultation = Cases.GERDY.consult(demo, demo.latest());
                WhatIf whatIf = new WhatIf(Cases.GERDY, demo, demo.latest())) {
            List<WhatIf.Change> changes = whatIf.ofRecorded();
            assertThat(changes).isNotEmpty();
            for (WhatIf.Change change : changes) {
                if (change.to().equals(WhatIf.NOT_ASKED)) {
                    assertThat(consultation
                                    .wouldFollow(consultation.observations().without(change.finding()))
                                    .urgency())
                            .as(change.toString())
                            .isEqualTo(change.then().urgency());
                }
            }
            assertThat(changes)
                    .anyMatch(change -> change.finding().equals("calf-swelling")
                            && change.to().equals("present")
                            && change.then().urgency().equals(Optional.of(Urgency.SAME_DAY)));
        }
    }

    @Test
    void theSmallestSetAllowsManageHereAndNoneOfItsAnswersCanBeSpared() throws Exception {
        CaseFile demo = demo();
        Map<String, Recorded> fewer = new LinkedHashMap<>(demo.latest().findings());
        fewer.keySet().removeAll(List.of("calf-swelling", "back-pain", "symptom-duration"));
        Visit visit = new Visit(demo.latest().date(), Side.LEFT, fewer, "", Optional.empty());
        CaseFile open = new CaseFile("invented", "", "", demo.patient(), List.of(visit), Optional.empty());
        try (Consultation consultation = Cases.GERDY.consult(open, visit);
                WhatIf whatIf = new WhatIf(Cases.GERDY, open, visit)) {
            List<Map<String, Answer>> sets = whatIf.setsThatAllowManageHere();
            assertThat(sets).isNotEmpty();
            for (Map<String, Answer> set : sets) {
                assertThat(set).containsKeys("calf-swelling", "back-pain", "symptom-duration");
                assertThat(urgency(consultation, set)).contains(Urgency.MANAGE_HERE);
                for (String spared : set.keySet()) {
                    Map<String, Answer> rest = new LinkedHashMap<>(set);
                    rest.remove(spared);
                    assertThat(urgency(consultation, rest))
                            .as("without %s", spared)
                            .isEmpty();
                }
            }
        }
    }

    private static Optional<Urgency> urgency(Consultation consultation, Map<String, Answer> answers) {
        Observations known = consultation.observations();
        for (Map.Entry<String, Answer> entry : answers.entrySet()) {
            boolean perSide = Cases.GERDY
                    .knowledge()
                    .catalogue()
                    .finding(entry.getKey())
                    .orElseThrow()
                    .perSide();
            known = known.with(
                    entry.getKey(),
                    perSide
                            ? new Recorded.Sides(Optional.of(entry.getValue()), Optional.empty())
                            : new Recorded.Whole(entry.getValue()));
        }
        return consultation.wouldFollow(known).urgency();
    }

    @Test
    void withARaisedFlagNoAnswersAllowManageHere() throws Exception {
        CaseFile demo = demo();
        Map<String, Recorded> answers = new LinkedHashMap<>(demo.latest().findings());
        answers.put("chest-symptoms", new Recorded.Whole(Answer.State.PRESENT));
        Visit raised = new Visit(demo.latest().date(), Side.LEFT, answers, "", Optional.empty());
        try (WhatIf whatIf = new WhatIf(Cases.GERDY, demo, raised)) {
            assertThat(whatIf.setsThatAllowManageHere()).isEmpty();
        }
    }
}
