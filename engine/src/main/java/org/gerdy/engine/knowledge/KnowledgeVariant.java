package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/**
 * A knowledge base with one thing changed, to see what the change would do. The compiled rules stay those of the
 * original, so a variant is for reasoning over the rules' logic only.
 */
public final class KnowledgeVariant {
    Catalogue catalogue;
    List<RedFlagRow> redFlags;
    EvidenceTable evidence;
    Settings settings;
    Map<String, ReferralRow> referrals;
    Map<String, RuleCard> rules;
    Map<String, Condition> conditions;
    List<ScoreDefinition> scores;
    List<DecisionRule> decisionRules;
    Supplier<FactorTables> factors;

    private KnowledgeVariant(KnowledgeBase base) {
        catalogue = base.catalogue();
        redFlags = base.redFlags();
        evidence = base.evidence();
        settings = base.settings();
        referrals = base.referrals();
        rules = base.rules();
        conditions = base.conditions();
        scores = base.scores();
        decisionRules = base.decisionRules();
        factors = base::factors;
    }

    private static KnowledgeBase changed(KnowledgeBase base, Consumer<KnowledgeVariant> change) {
        KnowledgeVariant variant = new KnowledgeVariant(base);
        change.accept(variant);
        return new KnowledgeBase(base, variant);
    }

    /** The knowledge base with one rule changed, or added. */
    public static KnowledgeBase rule(KnowledgeBase base, RuleCard changed) {
        return changed(base, variant -> variant.rules = copy(base.rules(), all -> all.put(changed.id(), changed)));
    }

    /** The knowledge base without one rule. */
    public static KnowledgeBase withoutRule(KnowledgeBase base, String id) {
        return changed(base, variant -> variant.rules = copy(base.rules(), all -> all.remove(id)));
    }

    /** The knowledge base with the red flag row of the same id changed, or added. */
    public static KnowledgeBase row(KnowledgeBase base, RedFlagRow changed) {
        return changed(base, variant -> variant.redFlags = put(base.redFlags(), changed, RedFlagRow::id));
    }

    /** The knowledge base without one red flag row. */
    public static KnowledgeBase withoutRow(KnowledgeBase base, String id) {
        return changed(
                base,
                variant -> variant.redFlags = base.redFlags().stream()
                        .filter(row -> !row.id().equals(id))
                        .toList());
    }

    /** The knowledge base with the referral threshold of the same id changed. */
    public static KnowledgeBase referral(KnowledgeBase base, ReferralRow changed) {
        return changed(
                base, variant -> variant.referrals = copy(base.referrals(), all -> all.put(changed.id(), changed)));
    }

    /** The knowledge base with the computed finding of the same id changed, or added. */
    public static KnowledgeBase computed(KnowledgeBase base, ComputedFinding changed) {
        return changed(
                base,
                variant -> variant.catalogue = Catalogue.of(
                        base.catalogue().findings(), put(base.catalogue().computed(), changed, ComputedFinding::id)));
    }

    /** The knowledge base with the finding of the same id changed, or added. */
    public static KnowledgeBase finding(KnowledgeBase base, FindingDefinition changed) {
        return changed(
                base,
                variant -> variant.catalogue = Catalogue.of(
                        put(base.catalogue().findings(), changed, FindingDefinition::id),
                        base.catalogue().computed()));
    }

    /** The knowledge base with the evidence row of the same finding and condition changed, or added. */
    public static KnowledgeBase evidence(KnowledgeBase base, EvidenceRow changed) {
        return evidence(base, put(base.evidence().rows(), changed, row -> List.of(row.finding(), row.condition())));
    }

    /** The knowledge base without one evidence row. */
    public static KnowledgeBase withoutEvidence(KnowledgeBase base, String finding, String condition) {
        return evidence(
                base,
                base.evidence().rows().stream()
                        .filter(row -> !row.finding().equals(finding)
                                || !row.condition().equals(condition))
                        .toList());
    }

    /** The knowledge base with other evidence altogether. */
    public static KnowledgeBase evidence(KnowledgeBase base, List<EvidenceRow> rows) {
        return changed(base, variant -> variant.evidence = new EvidenceTable(rows));
    }

    /** The knowledge base with one setting changed. */
    public static KnowledgeBase setting(KnowledgeBase base, String name, double value) {
        return changed(
                base,
                variant -> variant.settings = new Settings(copy(base.settings().all(), all -> all.put(name, value))));
    }

    /** The knowledge base with the condition of the same id changed. */
    public static KnowledgeBase condition(KnowledgeBase base, Condition changed) {
        return changed(
                base, variant -> variant.conditions = copy(base.conditions(), all -> all.put(changed.id(), changed)));
    }

    /** The knowledge base with the score of the same id changed, or added. */
    public static KnowledgeBase score(KnowledgeBase base, ScoreDefinition changed) {
        return changed(base, variant -> variant.scores = put(base.scores(), changed, ScoreDefinition::id));
    }

    /** The knowledge base with the decision rule of the same id changed, or added. */
    public static KnowledgeBase decisionRule(KnowledgeBase base, DecisionRule changed) {
        return changed(base, variant -> variant.decisionRules = put(base.decisionRules(), changed, DecisionRule::id));
    }

    /** The knowledge base with the contributing factor of the same id changed, or added. */
    public static KnowledgeBase factor(KnowledgeBase base, FactorDefinition changed) {
        FactorTables tables = base.factors();
        FactorTables with = new FactorTables(
                tables.measures(),
                put(tables.factors(), changed, FactorDefinition::id),
                tables.norms(),
                tables.errors(),
                tables.bands(),
                tables.settings());
        return changed(base, variant -> variant.factors = () -> with);
    }

    private static <T> Map<String, T> copy(Map<String, T> map, Consumer<Map<String, T>> change) {
        Map<String, T> copy = new LinkedHashMap<>(map);
        change.accept(copy);
        return Collections.unmodifiableMap(copy);
    }

    /** The list with one item in place of the one of the same key, or at the end. */
    private static <T> List<T> put(Collection<T> all, T changed, Function<T, Object> key) {
        List<T> list = new ArrayList<>();
        boolean found = false;
        for (T one : all) {
            boolean here = key.apply(one).equals(key.apply(changed));
            found |= here;
            list.add(here ? changed : one);
        }
        if (!found) {
            list.add(changed);
        }
        return List.copyOf(list);
    }
}
