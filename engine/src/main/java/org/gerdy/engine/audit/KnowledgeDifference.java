package org.gerdy.engine.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.knowledge.Table;

/** What two knowledge bases do not share, rule by rule and row by row. */
final class KnowledgeDifference {
    private KnowledgeDifference() {}

    static List<KnowledgeChange> between(
            KnowledgeFiles before,
            Map<String, RuleCard> rulesBefore,
            KnowledgeFiles after,
            Map<String, RuleCard> rulesAfter) {
        List<KnowledgeChange> changes = new ArrayList<>(rules(rulesBefore, rulesAfter));
        try {
            Set<String> tables = new LinkedHashSet<>(before.list());
            tables.addAll(after.list());
            for (String table : tables.stream().sorted().toList()) {
                if (table.endsWith(".csv")) {
                    changes.addAll(table(table, rows(before, table), rows(after, table)));
                }
            }
        } catch (IOException e) {
            throw new KnowledgeException("The files could not be listed: " + e.getMessage() + ".", e);
        }
        return List.copyOf(changes);
    }

    private static List<KnowledgeChange> rules(Map<String, RuleCard> before, Map<String, RuleCard> after) {
        List<KnowledgeChange> changes = new ArrayList<>();
        Set<String> ids = new LinkedHashSet<>(before.keySet());
        ids.addAll(after.keySet());
        for (String id : ids) {
            RuleCard old = before.get(id);
            RuleCard now = after.get(id);
            String oldText = old == null ? "" : plain(old.text());
            String nowText = now == null ? "" : plain(now.text());
            if (!oldText.equals(nowText)) {
                changes.add(new KnowledgeChange(
                        now != null ? now.file() : old == null ? "" : old.file(),
                        id,
                        kind(old != null, now != null),
                        Map.of("rule", new KnowledgeChange.Cell(oldText, nowText))));
            }
        }
        return changes;
    }

    private static String plain(String text) {
        return text.replaceAll("\\s+", " ").strip();
    }

    private static KnowledgeChange.Kind kind(boolean before, boolean after) {
        return !before
                ? KnowledgeChange.Kind.ADDED
                : after ? KnowledgeChange.Kind.CHANGED : KnowledgeChange.Kind.REMOVED;
    }

    private static List<KnowledgeChange> table(
            String table, Map<String, Map<String, String>> before, Map<String, Map<String, String>> after) {
        List<KnowledgeChange> changes = new ArrayList<>();
        Set<String> keys = new LinkedHashSet<>(before.keySet());
        keys.addAll(after.keySet());
        for (String key : keys) {
            Map<String, String> old = before.getOrDefault(key, Map.of());
            Map<String, String> now = after.getOrDefault(key, Map.of());
            Map<String, KnowledgeChange.Cell> cells = new LinkedHashMap<>();
            Set<String> columns = new LinkedHashSet<>(old.keySet());
            columns.addAll(now.keySet());
            for (String column : columns) {
                String was = old.getOrDefault(column, "");
                String is = now.getOrDefault(column, "");
                if (!was.equals(is)) {
                    cells.put(column, new KnowledgeChange.Cell(was, is));
                }
            }
            if (!cells.isEmpty()) {
                changes.add(
                        new KnowledgeChange(table, key, kind(before.containsKey(key), after.containsKey(key)), cells));
            }
        }
        return changes;
    }

    /** The rows of a table by key: the first column or columns that tell every row apart. */
    private static Map<String, Map<String, String>> rows(KnowledgeFiles files, String path) {
        Map<String, Map<String, String>> byKey = new LinkedHashMap<>();
        if (!files.has(path)) {
            return byKey;
        }
        Table table = Table.read(files, path, List.of());
        List<String> columns = table.columns();
        List<Map<String, String>> rows = table.map(row -> {
            Map<String, String> cells = new LinkedHashMap<>();
            columns.forEach(column -> cells.put(column, row.text(column)));
            return cells;
        });
        List<String> key = key(columns, rows);
        int number = 0;
        for (Map<String, String> row : rows) {
            number++;
            String id = String.join(
                    "/",
                    key.stream().map(column -> row.getOrDefault(column, "")).toList());
            byKey.put(byKey.containsKey(id) ? id + "/" + number : id, row);
        }
        return byKey;
    }

    private static List<String> key(List<String> columns, List<Map<String, String>> rows) {
        // The row id of a table comes first or second; a table of pairs needs both.
        List<List<String>> candidates = new ArrayList<>();
        candidates.add(columns.subList(0, 1));
        if (columns.contains("row")) {
            candidates.add(List.of("row"));
        }
        if (columns.size() > 1) {
            candidates.add(columns.subList(0, 2));
        }
        if (columns.size() > 2) {
            candidates.add(columns.subList(0, 3));
        }
        for (List<String> candidate : candidates) {
            Set<List<String>> seen = new HashSet<>();
            if (rows.stream()
                    .allMatch(row -> seen.add(candidate.stream()
                            .map(column -> row.getOrDefault(column, ""))
                            .toList()))) {
                return candidate;
            }
        }
        return columns.subList(0, 1);
    }
}
