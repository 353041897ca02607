package org.gerdy.engine.knowledge;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.drools.drl.ast.descr.AnnotationDescr;
import org.drools.drl.ast.descr.BaseDescr;
import org.drools.drl.ast.descr.ConditionalElementDescr;
import org.drools.drl.ast.descr.PackageDescr;
import org.drools.drl.ast.descr.PatternDescr;
import org.drools.drl.ast.descr.PatternSourceDescr;
import org.drools.drl.ast.descr.RuleDescr;
import org.drools.drl.parser.DrlParser;
import org.drools.drl.parser.DroolsParserException;
import org.gerdy.engine.vocabulary.Basis;
import org.kie.internal.builder.conf.LanguageLevelOption;

/** Makes a card of every rule of a knowledge base by parsing its DRL. */
public final class RuleIndexer {
    private static final Pattern QUOTED = Pattern.compile("\"([^\"]*)\"");
    private static final Pattern READ = Pattern.compile("\\bid\\s*(?:==|in)\\s*(\\([^)]*\\)|\"[^\"]*\")");

    /** The id a consequence raises or meets. */
    private static final Pattern CONCLUDES = Pattern.compile("(?:RedFlag\\.raise|Referral\\.met)\\(\\s*\"([^\"]*)\"");

    private RuleIndexer() {}

    /** Every rule by id, in order of file and line. Throws {@link KnowledgeException} naming the file and line of a fault. */
    public static Map<String, RuleCard> index(KnowledgeFiles files) {
        Map<String, RuleCard> cards = new LinkedHashMap<>();
        try {
            for (String path : files.list()) {
                if (path.endsWith(".drl")) {
                    for (RuleCard card : cards(path, read(files, path))) {
                        RuleCard other = cards.putIfAbsent(card.id(), card);
                        if (other != null) {
                            throw new KnowledgeException(path + ":" + card.line() + ": the rule id '" + card.id()
                                    + "' is already used in " + other.file() + "; give this rule its own @id.");
                        }
                    }
                }
            }
        } catch (IOException e) {
            throw new KnowledgeException("The rule files could not be read: " + e.getMessage() + ".", e);
        }
        if (cards.isEmpty()) {
            throw new KnowledgeException("There is no .drl file with a rule here; name a knowledge base directory.");
        }
        return cards;
    }

    static String read(KnowledgeFiles files, String path) throws IOException {
        try (InputStream in = files.open(path)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static List<RuleCard> cards(String path, String drl) {
        DrlParser parser = new DrlParser(LanguageLevelOption.DRL6);
        PackageDescr parsed;
        try {
            parsed = parser.parse(false, drl);
        } catch (DroolsParserException e) {
            throw new KnowledgeException(path + ": not well-formed DRL: " + e.getMessage() + ".", e);
        }
        if (parser.hasErrors() || parsed == null) {
            throw new KnowledgeException(path + ":"
                    + parser.getErrors().stream()
                            .findFirst()
                            .map(error -> (error.getLines().length > 0 ? error.getLines()[0] : 1) + ": "
                                    + error.getMessage().lines().findFirst().orElse("not well-formed DRL"))
                            .orElse("1: not well-formed DRL")
                    + ".");
        }
        List<RuleCard> cards = new ArrayList<>();
        for (RuleDescr rule : parsed.getRules()) {
            cards.add(card(path, drl, rule));
        }
        return cards;
    }

    private static RuleCard card(String path, String drl, RuleDescr rule) {
        sameRow(path, rule);
        Set<String> reads = new LinkedHashSet<>();
        collect(rule.getLhs(), reads);
        String basis = annotation(rule, "basis");
        if (annotation(rule, "id").isEmpty() || annotation(rule, "because").isEmpty() || basis.isEmpty()) {
            throw new KnowledgeException(path + ":" + rule.getLine() + ": the rule \"" + rule.getName()
                    + "\" needs @id, @basis and @because.");
        }
        try {
            return new RuleCard(
                    annotation(rule, "id"),
                    rule.getName(),
                    path,
                    rule.getLine(),
                    annotation(rule, "row"),
                    Arrays.stream(annotation(rule, "source").split(","))
                            .map(String::strip)
                            .filter(key -> !key.isEmpty())
                            .toList(),
                    Basis.of(basis),
                    annotation(rule, "because"),
                    reads,
                    RuleLogic.of(rule.getLhs()),
                    text(drl, rule));
        } catch (IllegalArgumentException e) {
            throw new KnowledgeException(
                    path + ":" + rule.getLine() + ": '" + basis
                            + "' is not a basis; use published, recalled, common-practice or judgement.",
                    e);
        }
    }

    /** The row its consequence names must be the row it says it serves, or its conclusion would go nowhere. */
    private static void sameRow(String path, RuleDescr rule) {
        Matcher raised = CONCLUDES.matcher(String.valueOf(rule.getConsequence()));
        String row = annotation(rule, "row");
        if (raised.find() && !raised.group(1).equals(row)) {
            throw new KnowledgeException(path + ":" + rule.getLine() + ": the rule \"" + rule.getName()
                    + "\" concludes '" + raised.group(1) + "' but says @row(\"" + row + "\"); make the two agree.");
        }
    }

    private static String annotation(RuleDescr rule, String name) {
        AnnotationDescr annotation = rule.getAnnotation(name);
        if (annotation == null || annotation.getSingleValue() == null) {
            return "";
        }
        String value = annotation.getSingleValue().toString();
        return value.length() >= 2 && value.startsWith("\"") && value.endsWith("\"")
                ? value.substring(1, value.length() - 1)
                : value;
    }

    private static void collect(BaseDescr descr, Set<String> reads) {
        if (descr instanceof PatternDescr pattern) {
            pattern.getDescrs().forEach(constraint -> collectIds(constraint.toString(), reads));
            PatternSourceDescr source = pattern.getSource();
            if (source != null) {
                collect((BaseDescr) source, reads);
            }
        } else if (descr instanceof org.drools.drl.ast.descr.AccumulateDescr accumulate) {
            collect(accumulate.getInput(), reads);
        } else if (descr instanceof ConditionalElementDescr element) {
            element.getDescrs().forEach(child -> collect(child, reads));
        } else if (descr != null) {
            collectIds(descr.toString(), reads);
        }
    }

    private static void collectIds(String constraint, Set<String> reads) {
        Matcher read = READ.matcher(constraint);
        while (read.find()) {
            Matcher quoted = QUOTED.matcher(read.group(1));
            while (quoted.find()) {
                reads.add(quoted.group(1));
            }
        }
    }

    private static String text(String drl, RuleDescr rule) {
        int start = Math.max(0, rule.getStartCharacter());
        int end = drl.indexOf("\nend", start);
        return end < 0 ? drl.substring(start) : drl.substring(start, end + "\nend".length());
    }
}
