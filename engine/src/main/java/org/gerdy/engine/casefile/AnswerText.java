package org.gerdy.engine.casefile;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Reads one answer as typed, by the same rules as a case file. */
public final class AnswerText {
    private AnswerText() {}

    /**
     * The answer this text gives to a finding. Throws {@link MendableException} saying what the finding takes when the
     * text is no answer to it, or lies outside what can be true of a person.
     */
    public static Answer read(Catalogue catalogue, FindingDefinition finding, String text) throws MendableException {
        List<Problem> problems = new ArrayList<>();
        Tree.Place nowhere = new Tree.Place(0, 0);
        Tree.Scalar scalar = new Tree.Scalar(nowhere, Tree.Type.TEXT, text);
        Tree.Mapping block = new Tree.Mapping(nowhere, Map.of(finding.id(), new Tree.Member(nowhere, scalar)));
        Map<String, Recorded> read =
                new AnswerReader("", catalogue, problems).ofVisit(block, Side.LEFT, new HashMap<>());
        if (!problems.isEmpty()) {
            throw new MendableException(problems);
        }
        return Optional.ofNullable(read.get(finding.id()))
                .flatMap(recorded -> recorded.on(Side.LEFT))
                .orElseThrow();
    }
}
