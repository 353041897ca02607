package org.gerdy.engine.knowledge;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.gerdy.engine.casefile.Terms;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.load.LoadSettings;
import org.gerdy.engine.measure.EvidenceStatement;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.vocabulary.Catalogue;
import org.kie.api.KieBase;

/** All of a knowledge base: words, tables, rules, bibliography; with a version and a digest over its content. Immutable, safe for many threads. */
public final class KnowledgeBase {
    private final KnowledgeFiles files;
    private final Identity identity;
    private final Catalogue catalogue;
    private final List<RedFlagRow> redFlags;
    private final Map<String, List<RedFlagRow>> rowsByFlag;
    private final Map<String, Condition> conditions;
    private final EvidenceTable evidence;
    private final Priors priors;
    private final Settings settings;
    private final Map<String, ReferralRow> referrals;
    private final List<ScoreDefinition> scores;
    private final List<DecisionRule> decisionRules;
    private final List<Terms.Clash> clashes;
    private final List<String> cautions;
    private final Map<String, RuleCard> rules;
    private final Set<String> readByRules;
    private final Supplier<FactReads> factReads;
    private final Supplier<Map<String, Source>> bibliography;
    private final IntakeTables intake;
    private final Supplier<FactorTables> factors;
    private final Supplier<List<EvidenceStatement>> factorEvidence;
    private final Supplier<LoadSettings> loadSettings;
    private final Supplier<KieBase> kieBase;
    private final Terms terms;

    /** The same with some parts exchanged; see {@link KnowledgeVariant}. */
    KnowledgeBase(KnowledgeBase base, KnowledgeVariant variant) {
        this.identity = base.identity;
        this.catalogue = variant.catalogue;
        this.redFlags = variant.redFlags;
        this.rowsByFlag = byFlag(redFlags);
        this.conditions = variant.conditions;
        this.evidence = variant.evidence;
        this.priors = base.priors;
        this.settings = variant.settings;
        this.referrals = variant.referrals;
        this.scores = variant.scores;
        this.decisionRules = variant.decisionRules;
        this.clashes = base.clashes;
        this.cautions = base.cautions;
        this.rules = variant.rules;
        this.readByRules = base.readByRules;
        this.factReads = KnowledgeLoader.once(() -> new FactReads(catalogue, evidence, base.rules.values()));
        this.intake = base.intake;
        this.factors = variant.factors;
        this.factorEvidence = base.factorEvidence;
        this.loadSettings = base.loadSettings;
        this.bibliography = base.bibliography;
        this.kieBase = base.kieBase;
        this.files = base.files;
        this.terms = terms(this, factors);
    }

    KnowledgeBase(KnowledgeLoader loader, Supplier<KieBase> kieBase) {
        this.files = loader.files;
        this.identity = loader.identity;
        this.catalogue = loader.catalogue;
        this.redFlags = loader.redFlags;
        this.conditions = loader.conditions;
        this.evidence = loader.evidence;
        this.priors = loader.priors;
        this.settings = loader.settings;
        this.referrals = loader.referrals;
        this.scores = loader.scores;
        this.decisionRules = loader.decisionRules;
        this.clashes = loader.clashes;
        this.cautions = loader.cautions;
        this.rules = loader.rules;
        this.bibliography = loader.bibliography;
        this.intake = loader.intake;
        this.factors = loader.factors;
        this.factorEvidence = loader.factorEvidence;
        this.loadSettings = loader.loadSettings;
        this.kieBase = kieBase;
        this.rowsByFlag = byFlag(redFlags);
        Set<String> read = new LinkedHashSet<>();
        rules.values().forEach(rule -> read.addAll(rule.reads()));
        this.readByRules = Set.copyOf(read);
        this.factReads = KnowledgeLoader.once(() -> new FactReads(catalogue, evidence, rules.values()));
        this.terms = terms(this, factors);
    }

    private static Map<String, List<RedFlagRow>> byFlag(List<RedFlagRow> rows) {
        Map<String, List<RedFlagRow>> byFlag = new LinkedHashMap<>();
        for (RedFlagRow row : rows) {
            byFlag.computeIfAbsent(row.flag(), ignored -> new java.util.ArrayList<>())
                    .add(row);
        }
        return byFlag;
    }

    /** Which knowledge base this is: its version, and SHA-256 over every file's path and bytes, in hexadecimal. */
    public record Identity(String version, String sha256) {}

    /** The files it was read from. */
    public KnowledgeFiles files() {
        return files;
    }

    /** Version and digest. */
    public Identity identity() {
        return identity;
    }

    /** Every finding. */
    public Catalogue catalogue() {
        return catalogue;
    }

    /** Every row of every red flag, in table order. */
    public List<RedFlagRow> redFlags() {
        return redFlags;
    }

    /** The rows of each red flag, flags in table order. */
    public Map<String, List<RedFlagRow>> rowsByFlag() {
        return rowsByFlag;
    }

    /** The conditions, by id. */
    public Map<String, Condition> conditions() {
        return conditions;
    }

    /** The condition of this id. Throws {@link IllegalArgumentException} for an unknown one. */
    public Condition condition(String id) {
        return Optional.ofNullable(conditions.get(id))
                .orElseThrow(() -> new IllegalArgumentException("There is no condition '" + id + "'."));
    }

    /** The evidence table. */
    public EvidenceTable evidence() {
        return evidence;
    }

    /** Prior probabilities. */
    public Priors priors() {
        return priors;
    }

    /** Single numbers of the method. */
    public Settings settings() {
        return settings;
    }

    /** Thresholds for sharing or referring, by id. */
    public Map<String, ReferralRow> referrals() {
        return referrals;
    }

    /** Published scores. */
    public List<ScoreDefinition> scores() {
        return scores;
    }

    /** Published decision rules. */
    public List<DecisionRule> decisionRules() {
        return decisionRules;
    }

    /** Printed with every result. */
    public List<String> cautions() {
        return cautions;
    }

    /** Every rule, by id. */
    public Map<String, RuleCard> rules() {
        return rules;
    }

    /** The rule of this id. Throws {@link IllegalArgumentException} for an unknown one. */
    public RuleCard rule(String id) {
        return Optional.ofNullable(rules.get(id))
                .orElseThrow(() -> new IllegalArgumentException("There is no rule '" + id + "'."));
    }

    /** The findings that some rule reads by name. */
    public Set<String> readByRules() {
        return readByRules;
    }

    /** What rules and tables look for in the findings they read. Worked out on first use. */
    public FactReads factReads() {
        return factReads.get();
    }

    /** The bibliography, by key. Read on first use. */
    public Map<String, Source> bibliography() {
        return bibliography.get();
    }

    /** Measures and contributing factors. Read on first use; throws {@link KnowledgeException} when they do not hold. */
    public FactorTables factors() {
        return factors.get();
    }

    /** What was read on each contributing factor. Read on first use. */
    public List<EvidenceStatement> factorEvidence() {
        return factorEvidence.get();
    }

    /** The numbers training load is reckoned with. Read on first use. */
    public LoadSettings loadSettings() {
        return loadSettings.get();
    }

    /** The words case files may use. */
    public Terms terms() {
        return terms;
    }

    private static Terms terms(KnowledgeBase base, Supplier<FactorTables> tables) {
        return new Terms(
                base.catalogue,
                base.rowsByFlag.keySet(),
                base.redFlags.stream().map(RedFlagRow::id).collect(java.util.stream.Collectors.toUnmodifiableSet()),
                base.conditions.keySet(),
                base.scores.stream().map(ScoreDefinition::id).collect(java.util.stream.Collectors.toUnmodifiableSet()),
                base.decisionRules.stream()
                        .map(DecisionRule::id)
                        .collect(java.util.stream.Collectors.toUnmodifiableSet()),
                base.clashes,
                () -> tables.get().measures(),
                () -> tables.get().factors().stream()
                        .map(FactorDefinition::id)
                        .collect(java.util.stream.Collectors.toUnmodifiableSet()),
                () -> FactorLinks.planItems(base.files));
    }

    /** What an intake needs beside the rules. */
    public IntakeTables intake() {
        return intake;
    }

    /** The compiled rules. */
    public KieBase kieBase() {
        return kieBase.get();
    }
}
