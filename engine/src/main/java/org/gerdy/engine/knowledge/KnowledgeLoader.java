package org.gerdy.engine.knowledge;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.casefile.Terms;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.load.LoadSettings;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.measure.EvidenceStatement;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;
import org.kie.api.KieBase;

/** Reads the tables of a knowledge base and holds them against each other. A wrong id anywhere stops the load. */
public final class KnowledgeLoader {
    private static final Pattern POPULATION = Pattern.compile("Population\\.use\\(\\s*\"([^\"]*)\"");

    final KnowledgeFiles files;
    final KnowledgeBase.Identity identity;
    final Map<String, RuleCard> rules;
    final Catalogue catalogue;
    final List<RedFlagRow> redFlags;
    final Map<String, Condition> conditions;
    final EvidenceTable evidence;
    final Priors priors;
    final Settings settings;
    final Map<String, ReferralRow> referrals;
    final List<ScoreDefinition> scores;
    final List<DecisionRule> decisionRules;
    final List<Terms.Clash> clashes;
    final List<String> cautions;
    final Supplier<Map<String, Source>> bibliography;
    final IntakeTables intake;
    final Supplier<FactorTables> factors;
    final Supplier<List<EvidenceStatement>> factorEvidence;
    final Supplier<LoadSettings> loadSettings;

    private KnowledgeLoader(KnowledgeFiles files, KnowledgeBase.Identity identity, Map<String, RuleCard> rules) {
        this.files = files;
        this.identity = identity;
        this.rules = Collections.unmodifiableMap(rules);
        this.catalogue = new CatalogueReader(files).catalogue();
        this.redFlags = redFlags();
        DifferentialReader differential = new DifferentialReader(files, catalogue, redFlags);
        this.conditions = differential.conditions();
        this.evidence = differential.evidence();
        this.priors = differential.priors();
        this.settings = settings();
        this.referrals = referrals();
        ScoreReader reader = new ScoreReader(files, catalogue);
        this.scores = reader.scores();
        this.decisionRules = reader.decisionRules();
        this.clashes = clashes();
        this.cautions = files.table("cautions.csv", "text").map(row -> row.required("text"));
        this.bibliography = once(this::bibliography);
        Set<String> flags = new LinkedHashSet<>();
        redFlags.forEach(row -> flags.add(row.flag()));
        this.intake = IntakeTables.read(files, catalogue, flags);
        this.factors = once(() -> FactorLinks.checked(FactorTablesReader.factors(files), files, this.catalogue, rules));
        this.factorEvidence = once(() -> FactorTablesReader.evidence(files, factors.get()));
        this.loadSettings = once(() -> FactorTablesReader.load(files));
        checkRules();
    }

    /**
     * Loads a knowledge base.
     *
     * @param files its tables
     * @param identity its version and digest
     * @param rules the card of every rule
     * @param kieBase the same rules, compiled
     */
    public static KnowledgeBase load(
            KnowledgeFiles files, KnowledgeBase.Identity identity, Map<String, RuleCard> rules, KieBase kieBase) {
        return load(files, identity, rules, () -> kieBase);
    }

    /** The same with rules that may still be under way; they are asked for when a case is first assessed. */
    public static KnowledgeBase load(
            KnowledgeFiles files,
            KnowledgeBase.Identity identity,
            Map<String, RuleCard> rules,
            Supplier<KieBase> kieBase) {
        return new KnowledgeBase(new KnowledgeLoader(files, identity, rules), kieBase);
    }

    private List<RedFlagRow> redFlags() {
        Set<String> ids = new LinkedHashSet<>();
        return files.table(
                        "red-flags.csv", "flag", "row", "label", "urgency", "within", "raised_when", "needs", "action")
                .map(row -> {
                    String id = row.required("row");
                    if (!ids.add(id)) {
                        throw row.wrong("the row id '" + id + "' is used twice; give each row its own.");
                    }
                    RedFlagRow flag = new RedFlagRow(
                            row.required("flag"),
                            id,
                            row.required("label"),
                            urgency(row),
                            row.required("within"),
                            row.expression("applies_if"),
                            Expression.parse(row.required("raised_when")),
                            row.expression("trigger"),
                            row.list("needs"),
                            row.required("action"),
                            row.text("rationale"),
                            row.list("source"),
                            Basis.of(row.required("basis")),
                            row.text("note"));
                    flag.appliesIf().ifPresent(gate -> KnownWords.known(catalogue, gate, row));
                    flag.trigger().ifPresent(trigger -> KnownWords.known(catalogue, trigger, row));
                    KnownWords.known(catalogue, flag.raisedWhen(), row);
                    flag.needs().forEach(need -> KnownWords.known(catalogue, need, row));
                    return flag;
                });
    }

    private static Urgency urgency(Table.Row row) {
        String word = row.required("urgency");
        return Urgency.of(word)
                .orElseThrow(() -> row.wrong(
                        "'" + word + "' is not an urgency; use one of " + String.join(", ", Urgency.words()) + "."));
    }

    private Settings settings() {
        Map<String, Double> values = new LinkedHashMap<>();
        files.table("settings.csv", "name", "value", "meaning", "basis").map(row -> {
            Basis ignored = Basis.of(row.required("basis"));
            return values.put(row.required("name"), row.requiredNumber("value"));
        });
        return new Settings(values);
    }

    private Map<String, ReferralRow> referrals() {
        Map<String, ReferralRow> byId = new LinkedHashMap<>();
        files.table("referrals.csv", "id", "label", "urgency", "within", "action", "basis")
                .map(row -> new ReferralRow(
                        row.required("id"),
                        row.required("label"),
                        urgency(row),
                        row.required("within"),
                        row.required("action"),
                        row.list("source"),
                        Basis.of(row.required("basis"))))
                .forEach(row -> byId.put(row.id(), row));
        return Collections.unmodifiableMap(byId);
    }

    private List<Terms.Clash> clashes() {
        return files.table("contradictions.csv", "id", "when", "message").map(row -> {
            Expression when = Expression.parse(row.required("when"));
            KnownWords.known(catalogue, when, row);
            return new Terms.Clash(row.required("id"), when, row.required("message"));
        });
    }

    private Map<String, Source> bibliography() {
        Map<String, Source> byKey = new LinkedHashMap<>();
        files.table("sources.csv", "key", "authors", "year", "title", "published_in", "identifier", "kind", "basis")
                .map(row -> new Source(
                        row.required("key"),
                        row.text("authors"),
                        row.text("year"),
                        row.text("title"),
                        row.text("published_in"),
                        row.text("identifier"),
                        row.text("kind"),
                        row.text("basis"),
                        row.text("note")))
                .forEach(source -> byKey.put(source.key(), source));
        return Collections.unmodifiableMap(byKey);
    }

    private void checkRules() {
        Set<String> rows = new LinkedHashSet<>();
        redFlags.forEach(row -> rows.add(row.id()));
        Set<String> served = new LinkedHashSet<>();
        rules.values().forEach(rule -> served.add(rule.row()));
        for (String row : rows) {
            if (!served.contains(row)) {
                throw new KnowledgeException("red-flags.csv: no rule raises the row '" + row
                        + "', so it would stay quiet; write its rule or drop the row.");
            }
        }
        for (RuleCard rule : rules.values()) {
            Matcher population = POPULATION.matcher(rule.text());
            if (population.find() && !priors.populations().containsKey(population.group(1))) {
                throw new KnowledgeException(rule.file() + ":" + rule.line() + ": the rule \"" + rule.name()
                        + "\" chooses the population '" + population.group(1) + "', which populations.csv lacks.");
            }
            for (String read : rule.reads()) {
                if (!catalogue.knows(read)) {
                    throw new KnowledgeException(rule.file() + ":" + rule.line() + ": the rule \"" + rule.name()
                            + "\" reads '" + read + "', which is no finding"
                            + Catalogue.nearest(
                                            read,
                                            java.util.stream.Stream.concat(
                                                            catalogue.findings().stream()
                                                                    .map(FindingDefinition::id),
                                                            catalogue.computed().stream()
                                                                    .map(ComputedFinding::id))
                                                    .toList())
                                    .map(nearest -> "; did you mean '" + nearest + "'?")
                                    .orElse("."));
                }
            }
            if (!rule.row().isEmpty() && !rows.contains(rule.row()) && !referrals.containsKey(rule.row())) {
                throw new KnowledgeException(rule.file() + ":" + rule.line() + ": the rule \"" + rule.name()
                        + "\" serves the row '" + rule.row() + "', which no table has.");
            }
        }
    }

    static <T> Supplier<T> once(Supplier<T> supplier) {
        return new Supplier<>() {
            private volatile Optional<T> value = Optional.empty();

            @Override
            public T get() {
                if (value.isEmpty()) {
                    value = Optional.of(supplier.get());
                }
                return value.orElseThrow();
            }
        };
    }
}
