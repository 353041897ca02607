package org.gerdy.cli.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gerdy.cli.intake.Keeping.Pending;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Makes of what was typed the case as it would be; nothing is kept here. */
final class Answering {
    private final IntakeSession session;
    private final KnowledgeBase knowledge;

    Answering(IntakeSession session) {
        this.session = session;
        this.knowledge = session.gerdy().knowledge();
    }

    /** Throws {@link MendableException} saying what the finding takes when the text is no answer to it. */
    Pending typed(FindingDefinition finding, Optional<Side> side, String text) throws MendableException {
        Typed typed = Typed.read(knowledge, finding, text);
        CaseFile changed = session.caseFile();
        for (Map.Entry<Optional<Side>, Answer> one : typed.answers().entrySet()) {
            Optional<Side> on = finding.perSide() ? one.getKey().or(() -> side) : Optional.empty();
            changed = session.with(changed, finding.id(), on, one.getValue());
        }
        if (!typed.trials().isEmpty()) {
            changed = session.noted(changed, typed.trials());
        }
        String told = finding.id() + " "
                + typed.answers().entrySet().stream()
                        .map(one -> (finding.perSide()
                                        ? one.getKey()
                                                .or(() -> side)
                                                .map(which -> which.word() + " ")
                                                .orElse("")
                                        : "")
                                + one.getValue().text())
                        .collect(Collectors.joining(" "));
        return new Pending(changed, List.of(finding.id()), List.of(told));
    }

    /** Each of these in the same state, on every side it is asked for. */
    Pending all(List<String> findings, Answer.State state) {
        CaseFile changed = session.caseFile();
        List<String> told = new ArrayList<>();
        for (String id : findings) {
            FindingDefinition finding = knowledge.catalogue().finding(id).orElseThrow();
            List<Side> sides = session.sides(finding);
            for (Side side : sides) {
                changed = session.with(changed, id, Optional.of(side), state);
            }
            if (sides.isEmpty()) {
                changed = session.with(changed, id, Optional.empty(), state);
            }
            told.add(id
                    + sides.stream()
                            .map(side -> " " + side.word() + " " + state.text())
                            .collect(Collectors.joining())
                    + (sides.isEmpty() ? " " + state.text() : ""));
        }
        return new Pending(changed, findings, List.copyOf(told));
    }

    /** The answer to this finding taken back. */
    Pending erased(String finding) {
        return new Pending(session.without(finding), List.of(finding), List.of(finding + " not asked"));
    }

    /** A line for the notes of the visit. */
    Pending remark(String line) {
        return new Pending(session.noted(session.caseFile(), line), List.of(), List.of("remark"));
    }
}
