package org.gerdy.cli;

import java.util.Locale;
import java.util.Optional;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** How findings, flags, numbers are said on screen. */
public final class Words {
    private final KnowledgeBase knowledge;

    /** Words over this knowledge base. */
    public Words(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** A finding as its question, or a computed one as its label. */
    public String finding(String id) {
        return knowledge
                .catalogue()
                .finding(id)
                .map(FindingDefinition::question)
                .or(() -> knowledge.catalogue().computed(id).map(ComputedFinding::label))
                .orElse(id);
    }

    /** The label of a flag: that of its first row. */
    public String flag(String id) {
        return Optional.ofNullable(knowledge.rowsByFlag().get(id))
                .map(rows -> rows.get(0))
                .map(RedFlagRow::label)
                .orElse(id);
    }

    /** A share as a percentage without decimals, and "under 1 %" below it. */
    public static String percent(double share) {
        if (share < 0.005) {
            return "<1%";
        }
        return String.format(Locale.ROOT, "%.0f%%", share * 100);
    }

    /** A likelihood ratio with two figures. */
    public static String ratio(double ratio) {
        return ratio >= 10
                ? String.format(Locale.ROOT, "%.0f", ratio)
                : ratio >= 1 ? String.format(Locale.ROOT, "%.1f", ratio) : String.format(Locale.ROOT, "%.2f", ratio);
    }

    /** A number without needless zeros. */
    public static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
