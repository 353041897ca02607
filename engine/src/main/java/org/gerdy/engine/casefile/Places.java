package org.gerdy.engine.casefile;

import java.util.HashMap;
import java.util.Map;

/** Where each finding stood in its file: by index of the visit, -1 for the patient block. */
final class Places {
    private final Map<Integer, Map<String, Tree.Place>> byVisit = new HashMap<>();

    Map<String, Tree.Place> of(int visit) {
        return byVisit.computeIfAbsent(visit, ignored -> new HashMap<>());
    }

    /** The place of a finding in a visit, or in the patient block, or the start of the file. */
    Tree.Place find(int visit, String finding) {
        Tree.Place inVisit = of(visit).get(finding);
        return inVisit != null ? inVisit : of(-1).getOrDefault(finding, new Tree.Place(1, 1));
    }
}
