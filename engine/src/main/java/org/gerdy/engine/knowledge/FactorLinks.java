package org.gerdy.engine.knowledge;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.MeasureDefinition;
import org.gerdy.engine.measure.MeasureKind;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Units;

/** Holds the tables of factors against the rest of a knowledge base: findings, rules and plan items. */
final class FactorLinks {
    private static final Pattern PATTERN = Pattern.compile("FactorFinding\\(([^()]*(?:\\([^()]*\\)[^()]*)*)\\)");
    private static final Pattern FACTOR = Pattern.compile("\\bfactor\\s*==\\s*\"([^\"]*)\"");
    private static final Pattern VERDICTS = Pattern.compile("\\bverdict\\s*(?:==|in)\\s*(\\([^)]*\\)|\"[^\"]*\")");
    private static final Pattern QUOTED = Pattern.compile("\"([^\"]*)\"");
    private static final String PLAN_ITEMS = "knowledge/plan-items.csv";

    private FactorLinks() {}

    /** The tables, once every id they share with the rest is known. Throws {@link KnowledgeException} otherwise. */
    static FactorTables checked(
            FactorTables tables, KnowledgeFiles files, Catalogue catalogue, Map<String, RuleCard> rules) {
        for (String finding : tables.findingsNamed()) {
            if (!catalogue.knows(finding)) {
                throw new KnowledgeException("The tables of measures and factors name '" + finding
                        + "', which is no finding"
                        + catalogue
                                .nearest(finding)
                                .map(nearest -> "; did you mean '" + nearest + "'?")
                                .orElse("."));
            }
        }
        tables.measures().values().forEach(measure -> measure.finding()
                .flatMap(catalogue::finding)
                .filter(finding -> !holds(finding, measure))
                .ifPresent(finding -> {
                    throw new KnowledgeException("The measure '" + measure.id() + "' is to answer the finding '"
                            + finding.id() + "', which takes other units, sides or words; mend one of the two.");
                }));
        Map<String, FactorVerdict> ceilings = new LinkedHashMap<>();
        for (FactorDefinition factor : tables.factors()) {
            ceilings.put(factor.id(), factor.ceiling());
        }
        rules.values().forEach(rule -> rule(rule, ceilings));
        if (files.has(PLAN_ITEMS)) {
            List<String> ignored = Table.read(files, PLAN_ITEMS, List.of("id", "for_factors"))
                    .map(row -> {
                        row.list("for_factors").stream()
                                .filter(factor -> !ceilings.containsKey(factor))
                                .forEach(factor -> {
                                    throw row.wrong(noFactor(factor, ceilings));
                                });
                        return row.text("id");
                    });
        }
        return tables;
    }

    /** The ids of the plan items; none without their table. */
    static Set<String> planItems(KnowledgeFiles files) {
        return files.has(PLAN_ITEMS)
                ? Set.copyOf(Table.read(files, PLAN_ITEMS, List.of("id")).map(row -> row.text("id")))
                : Set.of();
    }

    /** Whether what the measure gives can stand as an answer to the finding. */
    private static boolean holds(FindingDefinition finding, MeasureDefinition measure) {
        return finding.perSide() == measure.perSide()
                && (measure.kind() == MeasureKind.CHOICE
                        ? finding.choices().containsAll(measure.choices())
                        : Units.convert(1, measure.unit(), finding.unit()).isPresent());
    }

    private static void rule(RuleCard rule, Map<String, FactorVerdict> ceilings) {
        Matcher pattern = PATTERN.matcher(rule.text());
        while (pattern.find()) {
            Matcher factor = FACTOR.matcher(pattern.group(1));
            if (!factor.find()) {
                continue;
            }
            FactorVerdict ceiling = ceilings.get(factor.group(1));
            String place = rule.file() + ":" + rule.line() + ": the rule \"" + rule.name() + "\": ";
            if (ceiling == null) {
                throw new KnowledgeException(place + noFactor(factor.group(1), ceilings));
            }
            Matcher verdicts = VERDICTS.matcher(pattern.group(1));
            if (verdicts.find() && !reachable(verdicts.group(1), ceiling, place)) {
                throw new KnowledgeException(place + "the verdict on '" + factor.group(1) + "' stops at '"
                        + ceiling.word() + "' in factors.csv, so the rule would never fire.");
            }
        }
    }

    private static boolean reachable(String words, FactorVerdict ceiling, String place) {
        boolean reachable = false;
        Matcher word = QUOTED.matcher(words);
        while (word.find()) {
            try {
                reachable |= FactorVerdict.of(word.group(1)).compareTo(ceiling) <= 0;
            } catch (IllegalArgumentException e) {
                throw new KnowledgeException(place + "'" + word.group(1) + "' is no verdict.", e);
            }
        }
        return reachable;
    }

    private static String noFactor(String factor, Map<String, FactorVerdict> ceilings) {
        return "there is no factor '" + factor + "'"
                + Catalogue.nearest(factor, ceilings.keySet())
                        .map(nearest -> "; did you mean '" + nearest + "'?")
                        .orElse(".");
    }
}
