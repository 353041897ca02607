package org.gerdy.cli.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.PlanEntry;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.logic.Truth;
import org.junit.jupiter.api.Test;

class BoneStressTest {
    @Test
    void aProgrammeWrittenIntoTheCaseGivesNoDatesWhileABoneSourceIsPossible() {
        CaseFile teenager = Patients.test("teenager.yaml");
        Visit visit = teenager.latest();
        PlanEntry.Programme frame =
                new PlanEntry.Programme(visit.date().plusDays(1), 1, Set.of(DayOfWeek.MONDAY), OptionalLong.of(5000));
        Visit asking = new Visit(
                visit.date(),
                visit.side(),
                visit.findings(),
                "",
                Optional.empty(),
                Map.of(),
                Optional.empty(),
                List.of(),
                Optional.of(new PlanEntry(Optional.empty(), Optional.of(frame), Optional.of(frame), Truth.UNKNOWN)),
                Optional.empty());
        CaseFile asked = new CaseFile(teenager.id(), "", "", teenager.patient(), List.of(asking), Optional.empty());
        Aftercare care = Patients.result(asked).aftercare();
        assertThat(care.returning()).isEmpty();
        assertThat(care.supported()).isEmpty();
        assertThat(care.interim().orElseThrow().advice())
                .anyMatch(row -> row.text().contains("The pain-monitoring scheme does not apply"));
        assertThat(Rendering.text(Patients.DOCUMENTS.handout(Patients.result(asked))))
                .contains("No running or jumping, even if it does not hurt.")
                .doesNotContain("0 to 10");
    }
}
