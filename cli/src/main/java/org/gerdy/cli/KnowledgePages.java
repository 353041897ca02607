package org.gerdy.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RuleCard;

/** The cards of a knowledge base as Markdown pages, one a kind, for reading outside a terminal. */
final class KnowledgePages {
    private static final Map<String, String> TITLES = Map.of(
            "conditions", "Conditions",
            "flags", "Red flags",
            "findings", "Findings",
            "factors", "Contributing factors",
            "measures", "Measures",
            "referrals", "Referral thresholds",
            "scores", "Scores",
            "sources", "Sources");

    private final KnowledgeBase knowledge;
    private final Cards cards;

    KnowledgePages(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.cards = new Cards(knowledge);
    }

    /** Each page by file name. */
    Map<String, String> pages() {
        Map<String, String> pages = new LinkedHashMap<>();
        for (String kind : new TreeMap<>(TITLES).keySet()) {
            pages.put(kind + ".md", page(kind));
        }
        pages.put("rules.md", rules());
        return pages;
    }

    private String page(String kind) {
        StringBuilder page = opening(TITLES.getOrDefault(kind, kind));
        for (String line : cards.list(kind).orElse(List.of())) {
            String id = line.substring(0, line.indexOf(':'));
            page.append("## ").append(id).append("\n\n```text\n");
            page.append(cards.only(kind, id).orElseThrow().stripTrailing());
            page.append("\n```\n\n");
        }
        return page.toString();
    }

    private String rules() {
        StringBuilder page = opening("Rules");
        String file = "";
        for (RuleCard rule : knowledge.rules().values()) {
            if (!rule.file().equals(file)) {
                file = rule.file();
                page.append("## ").append(file).append("\n\n");
            }
            page.append("- `")
                    .append(rule.id())
                    .append("`: ")
                    .append(rule.name())
                    .append(". ")
                    .append(rule.because());
            page.append(" (").append(rule.basis().word());
            page.append(rule.sources().isEmpty() ? "" : ": " + String.join(", ", rule.sources()));
            page.append(").\n");
        }
        return page.toString();
    }

    private StringBuilder opening(String title) {
        return new StringBuilder("# " + title + "\n\nWritten by `gerdy rules pages docs/knowledge` from knowledge base "
                + knowledge.identity().version() + ". Do not edit; change the tables and write the pages again.\n\n");
    }
}
