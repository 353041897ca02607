package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Who reads what: the conditions behind each row, and the rows that rest on a finding, through computed ones too. */
final class Reading {
    private final KnowledgeBase knowledge;
    private final Map<String, List<RuleCard>> rulesByRow = new LinkedHashMap<>();
    private final Map<String, RedFlagRow> rows = new LinkedHashMap<>();
    private final Map<String, Set<String>> readers = new LinkedHashMap<>();

    Reading(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        for (RuleCard rule : knowledge.rules().values()) {
            if (!rule.row().isEmpty()) {
                rulesByRow
                        .computeIfAbsent(rule.row(), ignored -> new ArrayList<>())
                        .add(rule);
                rule.reads().forEach(id -> read(id, rule.row()));
            }
        }
        for (RedFlagRow row : knowledge.redFlags()) {
            rows.put(row.id(), row);
            row.appliesIf().ifPresent(gate -> gate.findings().forEach(id -> read(id, row.id())));
            row.trigger().ifPresent(gate -> gate.findings().forEach(id -> read(id, row.id())));
            row.needs().forEach(id -> read(id, row.id()));
        }
    }

    private void read(String id, String row) {
        readers.computeIfAbsent(id, ignored -> new LinkedHashSet<>()).add(row);
        knowledge.catalogue().computed(id).ifPresent(computed -> computed.means()
                .findings()
                .forEach(inner -> read(inner, row)));
    }

    /** The red flag rows and referral thresholds that rest on this finding. */
    Set<String> rowsReading(String finding) {
        return readers.getOrDefault(finding, Set.of());
    }

    /** What a row needs to have been asked. */
    List<String> needs(String row) {
        return Optional.ofNullable(rows.get(row)).map(RedFlagRow::needs).orElse(List.of());
    }

    /** Every condition behind a row: its rules, who it is about, its entry question. */
    List<Expression> ofRow(String row) {
        List<Expression> conditions = new ArrayList<>();
        for (RuleCard rule : rulesByRow.getOrDefault(row, List.of())) {
            rule.logic().ifPresent(conditions::add);
        }
        Optional.ofNullable(rows.get(row)).ifPresent(found -> {
            found.appliesIf().ifPresent(conditions::add);
            found.trigger().ifPresent(conditions::add);
        });
        return conditions;
    }

    /** The same, and for a rule that serves no row its own. */
    List<Expression> ofRow(String row, RuleCard rule) {
        return row.isEmpty() ? rule.logic().map(List::of).orElse(List.of()) : ofRow(row);
    }

    static FindingDefinition with(FindingDefinition finding, Optional<Expression> onlyIf) {
        return new FindingDefinition(
                finding.id(),
                finding.section(),
                finding.topic(),
                finding.question(),
                finding.technique(),
                finding.kind(),
                finding.choices(),
                finding.unit(),
                finding.min(),
                finding.max(),
                finding.perSide(),
                onlyIf,
                finding.provocative(),
                finding.seconds(),
                finding.equipment(),
                finding.dangerWhen(),
                finding.cluster(),
                finding.contradicts(),
                finding.implies(),
                finding.note());
    }
}
