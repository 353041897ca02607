package org.gerdy.engine.reasoning;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Which findings can read differently when one answer changes: itself, what it gates, what is computed from either. */
final class Dependencies {
    private final Map<String, Set<String>> readers = new HashMap<>();
    private final Map<String, Set<String>> closures = new HashMap<>();

    Dependencies(Catalogue catalogue) {
        for (FindingDefinition finding : catalogue.findings()) {
            finding.onlyIf().ifPresent(gate -> reads(finding.id(), gate));
        }
        for (ComputedFinding finding : catalogue.computed()) {
            reads(finding.id(), finding.means());
        }
    }

    private void reads(String reader, Expression expression) {
        Consumer<Expression.Atom> note =
                atom -> readers.computeIfAbsent(atom.finding(), ignored -> new LinkedHashSet<>())
                        .add(reader);
        expression.atoms(note);
    }

    /** The finding and everything that rests on it, however far. */
    Set<String> restingOn(String finding) {
        Set<String> known = closures.get(finding);
        if (known == null) {
            known = new LinkedHashSet<>();
            Deque<String> open = new ArrayDeque<>();
            open.add(finding);
            while (!open.isEmpty()) {
                String id = open.remove();
                if (known.add(id)) {
                    open.addAll(readers.getOrDefault(id, Set.of()));
                }
            }
            closures.put(finding, known);
        }
        return known;
    }
}
