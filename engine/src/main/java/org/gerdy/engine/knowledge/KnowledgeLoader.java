package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.casefile.Terms;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.load.LoadSettings;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Points;
import org.gerdy.engine.measure.EvidenceStatement;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
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
        this.catalogue = catalogue();
        this.redFlags = redFlags();
        this.conditions = conditions();
        this.evidence = evidence();
        this.priors = priors();
        this.settings = settings();
        this.referrals = referrals();
        this.scores = scores();
        this.decisionRules = decisionRules();
        this.clashes = clashes();
        this.cautions = table("cautions.csv", "text").map(row -> row.required("text"));
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

    private Table table(String name, String... columns) {
        return Table.read(files, "knowledge/" + name, List.of(columns));
    }

    private Catalogue catalogue() {
        List<Table> asked = new ArrayList<>();
        for (String name : List.of("findings.csv", "plan-findings.csv")) {
            asked.add(table(name, "id", "section", "question", "kind", "per_side", "only_if", "danger_when"));
        }
        List<Table> worked = new ArrayList<>();
        for (String name : List.of("derived.csv", "red-flag-terms.csv", "terms.csv", "plan-terms.csv")) {
            worked.add(table(name, "id", "label", "means", "basis"));
        }
        Set<String> ids = new LinkedHashSet<>();
        List<FindingDefinition> findings = new ArrayList<>();
        asked.forEach(table -> findings.addAll(table.map(row -> finding(row, ids))));
        List<ComputedFinding> computed = new ArrayList<>();
        worked.forEach(table -> computed.addAll(table.map(row -> computed(row, ids))));
        Catalogue made = Catalogue.of(findings, computed);
        asked.forEach(table -> table.map(row -> {
            FindingDefinition finding = made.finding(row.required("id")).orElseThrow();
            finding.onlyIf().ifPresent(gate -> known(made, gate, row));
            finding.contradicts().forEach(relation -> known(made, relation.other(), row));
            finding.implies().forEach(relation -> known(made, relation.other(), row));
            return finding;
        }));
        worked.forEach(table -> table.map(row -> {
            ComputedFinding finding = made.computed(row.required("id")).orElseThrow();
            known(made, finding.means(), row);
            return finding;
        }));
        return made;
    }

    /** The id of a row, which nothing before it may bear. */
    private static String ownId(Table.Row row, Set<String> ids) {
        String id = row.required("id");
        if (!ids.add(id)) {
            throw row.wrong("the finding '" + id + "' is defined twice; give each its own id.");
        }
        return id;
    }

    private static FindingDefinition finding(Table.Row row, Set<String> ids) {
        Kind kind = Kind.of(row.required("kind"));
        return new FindingDefinition(
                ownId(row, ids),
                row.required("section"),
                row.text("topic"),
                row.required("question"),
                row.text("technique"),
                kind,
                row.list("choices"),
                row.text("unit"),
                kind == Kind.SCALE_0_10 ? OptionalDouble.of(0) : row.number("min"),
                kind == Kind.SCALE_0_10 ? OptionalDouble.of(10) : row.number("max"),
                row.yes("per_side"),
                expression(row, "only_if"),
                row.yes("provocative"),
                (int) row.number("seconds").orElse(5),
                row.text("equipment"),
                row.text("danger_when"),
                row.text("cluster"),
                relations(row, "contradicts"),
                relations(row, "implies"),
                row.text("note"));
    }

    /** {@code other=value}, or {@code own-answer:other=value} where the finding is a choice. */
    private static List<FindingDefinition.Relation> relations(Table.Row row, String column) {
        List<FindingDefinition.Relation> relations = new ArrayList<>();
        for (String text : row.list(column)) {
            int colon = text.indexOf(':');
            String when = colon < 0 ? "present" : text.substring(0, colon).strip();
            String[] pair = text.substring(colon + 1).split("=", 2);
            if (pair.length != 2) {
                throw row.wrong("'" + text + "' in '" + column + "' should be finding=state.");
            }
            relations.add(new FindingDefinition.Relation(when, pair[0].strip(), pair[1].strip()));
        }
        return List.copyOf(relations);
    }

    private static ComputedFinding computed(Table.Row row, Set<String> ids) {
        return new ComputedFinding(
                ownId(row, ids),
                row.required("label"),
                Expression.parse(row.required("means")),
                row.list("source"),
                Basis.of(row.required("basis")));
    }

    private List<RedFlagRow> redFlags() {
        Set<String> ids = new LinkedHashSet<>();
        return table("red-flags.csv", "flag", "row", "label", "urgency", "within", "raised_when", "needs", "action")
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
                            expression(row, "applies_if"),
                            Expression.parse(row.required("raised_when")),
                            expression(row, "trigger"),
                            row.list("needs"),
                            row.required("action"),
                            row.text("rationale"),
                            row.list("source"),
                            Basis.of(row.required("basis")),
                            row.text("note"));
                    flag.appliesIf().ifPresent(gate -> known(catalogue, gate, row));
                    flag.trigger().ifPresent(trigger -> known(catalogue, trigger, row));
                    known(catalogue, flag.raisedWhen(), row);
                    flag.needs().forEach(need -> known(catalogue, need, row));
                    return flag;
                });
    }

    private static Urgency urgency(Table.Row row) {
        String word = row.required("urgency");
        return Urgency.of(word)
                .orElseThrow(() -> row.wrong(
                        "'" + word + "' is not an urgency; use one of " + String.join(", ", Urgency.words()) + "."));
    }

    private Map<String, Condition> conditions() {
        Map<String, Condition> byId = new LinkedHashMap<>();
        Map<String, List<String>> guards = new LinkedHashMap<>();
        table("guards.csv", "condition", "flag", "basis")
                .map(row -> guards.computeIfAbsent(row.required("condition"), ignored -> new ArrayList<>())
                        .add(row.required("flag")));
        List<Condition> all = table("conditions.csv", "id", "name", "structure", "usual_disposition", "must_not_miss")
                .map(row -> condition(row, guards.getOrDefault(row.required("id"), List.of())));
        for (Condition condition : all) {
            if (byId.put(condition.id(), condition) != null) {
                throw new KnowledgeException("conditions.csv: the condition '" + condition.id() + "' stands twice.");
            }
        }
        guards.keySet().stream().filter(id -> !byId.containsKey(id)).forEach(id -> {
            throw new KnowledgeException("guards.csv: '" + id + "' is not a condition.");
        });
        if (!byId.containsKey(Condition.UNEXPLAINED)) {
            throw new KnowledgeException(
                    "conditions.csv: the row 'unexplained' is missing; nothing may be forced to fit.");
        }
        Set<String> flags = new LinkedHashSet<>();
        redFlags.forEach(row -> flags.add(row.flag()));
        for (Condition condition : all) {
            for (Condition.LookAlike other : condition.lookAlikes()) {
                if (!byId.containsKey(other.condition())) {
                    throw new KnowledgeException("conditions.csv: the look-alike '" + other.condition() + "' of "
                            + condition.id() + " is not a condition.");
                }
            }
            for (String flag : condition.flags()) {
                if (!flags.contains(flag)) {
                    throw new KnowledgeException(
                            "guards.csv: '" + flag + "' of " + condition.id() + " is not a red flag.");
                }
            }
        }
        return Collections.unmodifiableMap(byId);
    }

    private static Condition condition(Table.Row row, List<String> flags) {
        List<Condition.LookAlike> lookAlikes = new ArrayList<>();
        for (String text : row.list("look_alikes")) {
            int colon = text.indexOf(':');
            if (colon < 0) {
                throw row.wrong("the look-alike '" + text + "' should be condition: what separates them.");
            }
            lookAlikes.add(new Condition.LookAlike(
                    text.substring(0, colon).strip(), text.substring(colon + 1).strip()));
        }
        return new Condition(
                row.required("id"),
                row.required("name"),
                row.text("structure"),
                row.text("who"),
                row.text("typical_onset"),
                row.text("typical_age"),
                row.text("gives_away"),
                List.copyOf(lookAlikes),
                row.text("settled_by"),
                row.required("usual_disposition"),
                row.yes("must_not_miss"),
                List.copyOf(flags),
                row.text("icd10cm_right"),
                row.text("icd10cm_left"),
                row.text("icd10cm_unspecified"),
                row.text("icd_basis"),
                row.text("sex_limit"),
                row.number("age_min"),
                row.number("age_max"),
                row.list("sources"),
                row.text("note"));
    }

    private EvidenceTable evidence() {
        Set<String> pairs = new LinkedHashSet<>();
        return new EvidenceTable(table("evidence.csv", "finding", "condition", "lr_pos", "lr_neg", "basis")
                .map(row -> {
                    EvidenceRow made = new EvidenceRow(
                            row.required("finding"),
                            row.required("condition"),
                            ratio(row, "lr_pos"),
                            ratio(row, "lr_neg"),
                            row.text("cluster"),
                            row.text("origin"),
                            Basis.of(row.required("basis")),
                            row.list("source"),
                            row.text("note"));
                    known(catalogue, made.finding(), row);
                    if (!conditions.containsKey(made.condition())) {
                        throw row.wrong("'" + made.condition() + "' is not a condition.");
                    }
                    if (!pairs.add(made.finding() + "/" + made.condition())) {
                        throw row.wrong(
                                made.finding() + " already has a row for " + made.condition() + "; pool or choose.");
                    }
                    if (made.whenPresent().isEmpty() && made.whenAbsent().isEmpty()) {
                        throw row.wrong("the row carries no weight; fill lr_pos or lr_neg, or drop it.");
                    }
                    return made;
                }));
    }

    private static Optional<EvidenceRow.Ratio> ratio(Table.Row row, String column) {
        OptionalDouble value = row.number(column);
        if (value.isEmpty()) {
            return Optional.empty();
        }
        double low = row.requiredNumber(column + "_low");
        double high = row.requiredNumber(column + "_high");
        if (!(low > 0 && low <= value.getAsDouble() && value.getAsDouble() <= high && Double.isFinite(high))) {
            throw row.wrong(column + " should lie within its bounds, all above zero and finite.");
        }
        return Optional.of(new EvidenceRow.Ratio(value.getAsDouble(), low, high));
    }

    private Priors priors() {
        Map<String, Priors.PopulationCard> populations = new LinkedHashMap<>();
        table("populations.csv", "id", "label", "who", "basis")
                .map(row -> new Priors.PopulationCard(
                        row.required("id"),
                        row.required("label"),
                        row.text("who"),
                        row.text("arithmetic"),
                        Basis.of(row.required("basis")),
                        row.list("source")))
                .forEach(card -> populations.put(card.id(), card));
        Map<String, Map<String, Priors.Prior>> byPopulation = new LinkedHashMap<>();
        table("priors.csv", "population", "condition", "prior", "low", "high", "basis")
                .map(row -> {
                    String population = row.required("population");
                    String condition = row.required("condition");
                    if (!populations.containsKey(population) || !conditions.containsKey(condition)) {
                        throw row.wrong("'" + population + "' or '" + condition + "' is not known.");
                    }
                    return byPopulation
                            .computeIfAbsent(population, ignored -> new LinkedHashMap<>())
                            .put(
                                    condition,
                                    new Priors.Prior(
                                            row.requiredNumber("prior"),
                                            row.requiredNumber("low"),
                                            row.requiredNumber("high"),
                                            Basis.of(row.required("basis")),
                                            row.list("source")));
                });
        for (String population : populations.keySet()) {
            Set<String> missing = new LinkedHashSet<>(conditions.keySet());
            missing.removeAll(byPopulation.getOrDefault(population, Map.of()).keySet());
            if (!missing.isEmpty()) {
                throw new KnowledgeException(
                        "priors.csv: the population '" + population + "' has no row for " + missing + ".");
            }
        }
        return new Priors(populations, byPopulation);
    }

    private Settings settings() {
        Map<String, Double> values = new LinkedHashMap<>();
        table("settings.csv", "name", "value", "meaning", "basis").map(row -> {
            Basis ignored = Basis.of(row.required("basis"));
            return values.put(row.required("name"), row.requiredNumber("value"));
        });
        return new Settings(values);
    }

    private Map<String, ReferralRow> referrals() {
        Map<String, ReferralRow> byId = new LinkedHashMap<>();
        table("referrals.csv", "id", "label", "urgency", "within", "action", "basis")
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

    private List<ScoreDefinition> scores() {
        return table("scores.csv", "id", "label", "items", "bands", "applies_if", "exclusions", "basis")
                .map(row -> {
                    List<Points.Item> items = new ArrayList<>();
                    List<String> labels = new ArrayList<>();
                    for (String text : row.list("items")) {
                        String[] parts = text.split(":", 3);
                        if (parts.length != 3) {
                            throw row.wrong("the item '" + text + "' should be points:expression:label.");
                        }
                        Expression condition = Expression.parse(parts[1]);
                        known(catalogue, condition, row);
                        items.add(new Points.Item(Double.parseDouble(parts[0].strip()), condition));
                        labels.add(parts[2].strip());
                    }
                    Optional<Expression> appliesIf = expression(row, "applies_if");
                    appliesIf.ifPresent(expression -> known(catalogue, expression, row));
                    Optional<Expression> exclusions = expression(row, "exclusions");
                    exclusions.ifPresent(expression -> known(catalogue, expression, row));
                    return new ScoreDefinition(
                            row.required("id"),
                            row.required("label"),
                            new Points(List.copyOf(items)),
                            List.copyOf(labels),
                            row.list("bands").stream()
                                    .map(text -> band(row, text))
                                    .toList(),
                            appliesIf,
                            exclusions,
                            row.list("source"),
                            Basis.of(row.required("basis")),
                            row.text("note"));
                });
    }

    private static ScoreDefinition.Band band(Table.Row row, String text) {
        int colon = text.indexOf(':');
        int dots = text.indexOf("..");
        if (colon < 0 || dots < colon) {
            throw row.wrong("the band '" + text + "' should be name:low..high, with either end open.");
        }
        String low = text.substring(colon + 1, dots).strip();
        String high = text.substring(dots + 2).strip();
        return new ScoreDefinition.Band(
                text.substring(0, colon).strip(),
                low.isEmpty() ? Double.NEGATIVE_INFINITY : Double.parseDouble(low),
                high.isEmpty() ? Double.POSITIVE_INFINITY : Double.parseDouble(high));
    }

    private List<DecisionRule> decisionRules() {
        return table("decision-rules.csv", "id", "label", "applies_if", "criteria", "excluded_if", "basis")
                .map(row -> {
                    String id = row.required("id");
                    List<DecisionRule.Criterion> criteria = new ArrayList<>();
                    for (String text : row.list("criteria")) {
                        int colon = text.indexOf(':');
                        if (colon < 0) {
                            throw row.wrong("the criterion '" + text + "' should be name:expression.");
                        }
                        Expression met = Expression.parse(text.substring(colon + 1));
                        known(catalogue, met, row);
                        criteria.add(new DecisionRule.Criterion(
                                text.substring(0, colon).strip(), met));
                    }
                    Optional<Expression> appliesIf = expression(row, "applies_if");
                    Optional<Expression> excludedIf = expression(row, "excluded_if");
                    appliesIf.ifPresent(expression -> known(catalogue, expression, row));
                    excludedIf.ifPresent(expression -> known(catalogue, expression, row));
                    return new DecisionRule(
                            id,
                            row.required("label"),
                            appliesIf,
                            excludedIf,
                            List.copyOf(criteria),
                            row.text("positive_means"),
                            row.text("negative_means"),
                            row.text("not_applicable_means"),
                            row.list("source"),
                            Basis.of(row.required("basis")));
                });
    }

    private List<Terms.Clash> clashes() {
        return table("contradictions.csv", "id", "when", "message").map(row -> {
            Expression when = Expression.parse(row.required("when"));
            known(catalogue, when, row);
            return new Terms.Clash(row.required("id"), when, row.required("message"));
        });
    }

    private Map<String, Source> bibliography() {
        Map<String, Source> byKey = new LinkedHashMap<>();
        table("sources.csv", "key", "authors", "year", "title", "published_in", "identifier", "kind", "basis")
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

    private static Optional<Expression> expression(Table.Row row, String column) {
        String text = row.text(column);
        return text.isEmpty() ? Optional.empty() : Optional.of(Expression.parse(text));
    }

    private static void known(Catalogue catalogue, Expression expression, Table.Row row) {
        expression.findings().forEach(id -> known(catalogue, id, row));
        expression.atoms(atom -> {
            if (atom instanceof Expression.Is is) {
                knownValue(catalogue, is, row);
            }
        });
    }

    private static void knownValue(Catalogue catalogue, Expression.Is is, Table.Row row) {
        boolean legal = catalogue
                .finding(is.finding())
                .map(finding -> finding.kind() == Kind.CHOICE
                        ? finding.choices().contains(is.value())
                        : finding.kind() == Kind.YES_NO && isState(is.value()))
                .orElseGet(() -> isState(is.value()));
        if (!legal) {
            throw row.wrong("'" + is + "' is not an answer " + is.finding() + " can have.");
        }
    }

    private static boolean isState(String value) {
        return value.equals("present") || value.equals("absent");
    }

    private static void known(Catalogue catalogue, String id, Table.Row row) {
        if (!catalogue.knows(id)) {
            throw row.wrong("there is no finding '" + id + "'"
                    + catalogue
                            .nearest(id)
                            .map(nearest -> "; did you mean '" + nearest + "'?")
                            .orElse("."));
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
