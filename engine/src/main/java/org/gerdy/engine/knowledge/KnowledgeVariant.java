package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/**
 * A knowledge base with one thing changed, to see what the change would do. The compiled rules stay those of the
 * original, so a variant is for reasoning over the rules' logic only.
 *
 * @param catalogue every finding
 * @param redFlags every row of every red flag
 * @param evidence the evidence table
 * @param settings single numbers of the method
 * @param referrals thresholds by id
 * @param rules every rule by id
 */
public record KnowledgeVariant(
        Catalogue catalogue,
        List<RedFlagRow> redFlags,
        EvidenceTable evidence,
        Settings settings,
        Map<String, ReferralRow> referrals,
        Map<String, RuleCard> rules) {

    private static KnowledgeVariant of(KnowledgeBase base) {
        return new KnowledgeVariant(
                base.catalogue(), base.redFlags(), base.evidence(), base.settings(), base.referrals(), base.rules());
    }

    /** The knowledge base with one rule changed, or added. */
    public static KnowledgeBase rule(KnowledgeBase base, RuleCard changed) {
        Map<String, RuleCard> rules = new LinkedHashMap<>(base.rules());
        rules.put(changed.id(), changed);
        KnowledgeVariant same = of(base);
        return new KnowledgeBase(
                base,
                new KnowledgeVariant(
                        same.catalogue,
                        same.redFlags,
                        same.evidence,
                        same.settings,
                        same.referrals,
                        Collections.unmodifiableMap(rules)));
    }

    /** The knowledge base without one rule. */
    public static KnowledgeBase withoutRule(KnowledgeBase base, String id) {
        Map<String, RuleCard> rules = new LinkedHashMap<>(base.rules());
        rules.remove(id);
        KnowledgeVariant same = of(base);
        return new KnowledgeBase(
                base,
                new KnowledgeVariant(
                        same.catalogue,
                        same.redFlags,
                        same.evidence,
                        same.settings,
                        same.referrals,
                        Collections.unmodifiableMap(rules)));
    }

    /** The knowledge base with the red flag row of the same id changed, or added. */
    public static KnowledgeBase row(KnowledgeBase base, RedFlagRow changed) {
        return rows(base, put(base.redFlags(), changed, row -> row.id().equals(changed.id())));
    }

    /** The knowledge base without one red flag row. */
    public static KnowledgeBase withoutRow(KnowledgeBase base, String id) {
        return rows(
                base,
                base.redFlags().stream().filter(row -> !row.id().equals(id)).toList());
    }

    private static KnowledgeBase rows(KnowledgeBase base, List<RedFlagRow> rows) {
        KnowledgeVariant same = of(base);
        return new KnowledgeBase(
                base,
                new KnowledgeVariant(same.catalogue, rows, same.evidence, same.settings, same.referrals, same.rules));
    }

    /** The list with one item in place of the one it replaces, or at the end. */
    private static <T> List<T> put(Collection<T> all, T changed, Predicate<T> replaces) {
        List<T> list = new ArrayList<>();
        boolean found = false;
        for (T one : all) {
            boolean here = replaces.test(one);
            found |= here;
            list.add(here ? changed : one);
        }
        if (!found) {
            list.add(changed);
        }
        return List.copyOf(list);
    }

    /** The knowledge base with the referral threshold of the same id changed. */
    public static KnowledgeBase referral(KnowledgeBase base, ReferralRow changed) {
        Map<String, ReferralRow> referrals = new LinkedHashMap<>(base.referrals());
        referrals.put(changed.id(), changed);
        KnowledgeVariant same = of(base);
        return new KnowledgeBase(
                base,
                new KnowledgeVariant(
                        same.catalogue,
                        same.redFlags,
                        same.evidence,
                        same.settings,
                        Collections.unmodifiableMap(referrals),
                        same.rules));
    }

    /** The knowledge base with the computed finding of the same id changed, or added. */
    public static KnowledgeBase computed(KnowledgeBase base, ComputedFinding changed) {
        return catalogue(
                base,
                Catalogue.of(base.catalogue().findings(), put(base.catalogue().computed(), changed, one -> one.id()
                        .equals(changed.id()))));
    }

    /** The knowledge base with the finding of the same id changed, or added. */
    public static KnowledgeBase finding(KnowledgeBase base, FindingDefinition changed) {
        return catalogue(
                base,
                Catalogue.of(
                        put(base.catalogue().findings(), changed, one -> one.id()
                                .equals(changed.id())),
                        base.catalogue().computed()));
    }

    private static KnowledgeBase catalogue(KnowledgeBase base, Catalogue catalogue) {
        KnowledgeVariant same = of(base);
        return new KnowledgeBase(
                base,
                new KnowledgeVariant(
                        catalogue, same.redFlags, same.evidence, same.settings, same.referrals, same.rules));
    }

    /** The knowledge base with the evidence row of the same finding and condition changed, or added. */
    public static KnowledgeBase evidence(KnowledgeBase base, EvidenceRow changed) {
        return evidence(
                base,
                put(
                        base.evidence().rows(),
                        changed,
                        row -> row.finding().equals(changed.finding())
                                && row.condition().equals(changed.condition())));
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
        KnowledgeVariant same = of(base);
        return new KnowledgeBase(
                base,
                new KnowledgeVariant(
                        same.catalogue,
                        same.redFlags,
                        new EvidenceTable(rows),
                        same.settings,
                        same.referrals,
                        same.rules));
    }

    /** The knowledge base with one setting changed. */
    public static KnowledgeBase setting(KnowledgeBase base, String name, double value) {
        Map<String, Double> values = new LinkedHashMap<>(base.settings().all());
        values.put(name, value);
        KnowledgeVariant same = of(base);
        return new KnowledgeBase(
                base,
                new KnowledgeVariant(
                        same.catalogue,
                        same.redFlags,
                        same.evidence,
                        new Settings(values),
                        same.referrals,
                        same.rules));
    }
}
