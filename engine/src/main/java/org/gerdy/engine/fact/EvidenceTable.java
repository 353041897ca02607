package org.gerdy.engine.fact;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.drools.model.Drools;

/** The evidence table, indexed by finding, so that one rule can read it. Immutable. */
public final class EvidenceTable {
    private final Map<String, List<EvidenceRow>> whenPresent = new HashMap<>();
    private final Map<String, List<EvidenceRow>> whenAbsent = new HashMap<>();
    private final Map<String, List<EvidenceRow>> byCondition = new HashMap<>();
    private final List<EvidenceRow> rows;

    /** A table of these rows. */
    public EvidenceTable(Collection<EvidenceRow> rows) {
        this.rows = List.copyOf(rows);
        for (EvidenceRow row : rows) {
            row.whenPresent().ifPresent(ratio -> add(whenPresent, row.finding(), row));
            row.whenAbsent().ifPresent(ratio -> add(whenAbsent, row.finding(), row));
            add(byCondition, row.condition(), row);
        }
    }

    private static void add(Map<String, List<EvidenceRow>> map, String key, EvidenceRow row) {
        map.computeIfAbsent(key, ignored -> new ArrayList<>()).add(row);
    }

    /** Every row, in table order. */
    public List<EvidenceRow> rows() {
        return rows;
    }

    /** The rows about one condition. */
    public List<EvidenceRow> about(String condition) {
        return byCondition.getOrDefault(condition, List.of());
    }

    /** The rows that carry weight for a finding in a state. */
    public List<EvidenceRow> of(String finding, boolean present) {
        return (present ? whenPresent : whenAbsent).getOrDefault(finding, List.of());
    }

    /** Whether any row is about this finding. */
    public boolean weighs(String finding) {
        return whenPresent.containsKey(finding) || whenAbsent.containsKey(finding);
    }

    /** Reads the rows of a known finding; called from a rule's consequence. */
    public Weighed weigh(EvidenceFinding finding, Drools drools) {
        boolean present = finding.present();
        return new Weighed(finding.id(), present, of(finding.id(), present), Rules.idOf(drools));
    }
}
