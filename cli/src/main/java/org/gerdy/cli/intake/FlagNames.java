package org.gerdy.cli.intake;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.gerdy.cli.Words;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Truth;

/** Names red flags as they concern the patient of an intake. */
final class FlagNames {
    /** Flags named where many hold a test back. */
    static final int NAMED = 3;

    private final KnowledgeBase knowledge;
    private final Words words;

    FlagNames(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.words = new Words(knowledge);
    }

    /** The label of each flag's first row that can apply to this patient. */
    String of(IntakeSession session, Collection<String> flags) {
        return flags.stream().map(id -> one(session, id)).collect(Collectors.joining("; "));
    }

    private String one(IntakeSession session, String id) {
        return knowledge.rowsByFlag().getOrDefault(id, List.of()).stream()
                .filter(row -> row.appliesIf()
                        .map(when -> when.in(session.observations()) != Truth.FALSE)
                        .orElse(true))
                .map(RedFlagRow::label)
                .findFirst()
                .orElseGet(() -> words.flag(id));
    }

    /** Why a test that can hurt waits. */
    String held(IntakeSession session, List<String> flags) {
        return "this test can hurt or harm, and "
                + of(session, flags.stream().limit(NAMED).toList()).toLowerCase(Locale.ROOT)
                + (flags.size() > NAMED ? " and others" : "")
                + (flags.size() == 1 ? " is" : " are") + " raised or not yet cleared.";
    }
}
