package org.gerdy.engine.drill;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.Urgency;

/** Patients to practise on from case files. For one thread. */
public final class FilePatients {
    /** Openings of case files that do not say how it began. */
    private static final String UNRECORDED = "unrecorded";

    private static final String UNRECORDED_INJURED = "unrecorded-injured";

    private final KnowledgeBase knowledge;
    private final DrillTables tables;
    private final PatientMaker maker;
    private final LogicReasoner reasoner;

    /** Makes what a file is silent about as this maker makes it. */
    public FilePatients(KnowledgeBase knowledge, DrillTables tables, PatientMaker maker) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.maker = maker;
        this.reasoner = new LogicReasoner(knowledge);
    }

    /**
     * The patient of a case file's latest visit. What the file is silent about is answered in the ordinary way, so that
     * every question has an answer.
     */
    public DrillPatient of(CaseFile caseFile) {
        Observations recorded = Observations.of(knowledge.terms(), caseFile, caseFile.latest());
        Random random = PatientMaker.random(caseFile.id().hashCode());
        Sketch sketch = new Sketch(knowledge, tables, maker.compared(), random, recorded);
        sketch.fill();
        Map<String, Recorded> given = new LinkedHashMap<>();
        for (String role : List.of("age", "sex", "activity")) {
            recorded.recorded(tables.word(role)).ifPresent(answer -> given.put(tables.word(role), answer));
        }
        List<String> onset = recorded.choices(tables.word("onset"));
        boolean injured = recorded.is(tables.word("injury"), "present") == Truth.TRUE;
        Optional<Integer> weeks = recorded.recorded(tables.word("duration"))
                .flatMap(answer -> answer.on(Side.LEFT))
                .filter(Answer.Quantity.class::isInstance)
                .map(answer -> (int) Math.max(1, ((Answer.Quantity) answer).value()));
        String unrecorded = injured ? UNRECORDED_INJURED : UNRECORDED;
        String word = onset.isEmpty() || weeks.isEmpty() || !tables.openings().containsKey(onset.get(0))
                ? unrecorded
                : onset.get(0);
        List<String> causes = caseFile.expect()
                .map(expected -> expected.leading().map(List::of).orElseGet(() -> expected.within().keySet().stream()
                        .sorted()
                        .toList()))
                .orElse(List.of());
        return new DrillPatient(
                caseFile.id(),
                causes,
                "case-file",
                OptionalLong.empty(),
                recorded.side(),
                maker.opening(word, recorded.side(), weeks.orElse(1)),
                Collections.unmodifiableMap(given),
                Collections.unmodifiableMap(new LinkedHashMap<>(sketch.now().recorded())),
                Set.of());
    }

    /**
     * Why a case file is not fit to practise on, if it is not: its booking lacks the age, the ordinary answers change its
     * urgency, or the rules fall short of what the file expects.
     */
    public Optional<String> unfit(CaseFile caseFile, DrillPatient patient) {
        Observations recorded = Observations.of(knowledge.terms(), caseFile, caseFile.latest());
        if (!recorded.isKnown(tables.word("age"))) {
            return Optional.of("The age is not recorded.");
        }
        Optional<Urgency> before = reasoner.assess(caseFile.id(), recorded).urgency();
        Optional<Urgency> after = reasoner.assess(caseFile.id(), patient.whole(knowledge.catalogue()))
                .urgency();
        if (after.isEmpty() || !after.equals(before.or(() -> Optional.of(Urgency.MANAGE_HERE)))) {
            return Optional.of("What the file is silent about decides its urgency.");
        }
        boolean exact = caseFile.expect()
                .flatMap(CaseFile.Expectation::urgency)
                .map(after.get()::equals)
                .orElse(true);
        boolean enough = caseFile.expect()
                .flatMap(CaseFile.Expectation::atLeast)
                .map(least -> after.get().compareTo(least) >= 0)
                .orElse(true);
        return exact && enough
                ? Optional.empty()
                : Optional.of("The rules do not reach the urgency this file expects.");
    }
}
