package org.gerdy.engine.casefile;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** A small catalogue of no particular body region, and cases written in its words. */
final class Sample {
    static final Catalogue CATALOGUE = Catalogue.of(
            List.of(
                    finding("age", Kind.NUMBER).unit("years", 0, 110).made(),
                    finding("injury", Kind.YES_NO).made(),
                    finding("injury-days", Kind.NUMBER)
                            .unit("days", 0, 1000)
                            .onlyIf("injury=present")
                            .made(),
                    finding("trend", Kind.CHOICE)
                            .choices("better", "same", "worse")
                            .made(),
                    finding("first-day", Kind.DATE).made(),
                    finding("strength", Kind.NUMBER)
                            .unit("N", 0, 2000)
                            .perSide()
                            .made(),
                    finding("girth", Kind.NUMBER).unit("cm", 10, 80).perSide().made(),
                    finding("pain", Kind.SCALE_0_10)
                            .unit("points", 0, 10)
                            .perSide()
                            .made(),
                    finding("average", Kind.SCALE_0_10)
                            .unit("points", 0, 10)
                            .perSide()
                            .made(),
                    finding("site", Kind.CHOICE)
                            .choices("front", "back")
                            .perSide()
                            .made(),
                    finding("fluid", Kind.YES_NO).perSide().danger("present").made(),
                    finding("tense-fluid", Kind.YES_NO)
                            .perSide()
                            .onlyIf("fluid=present")
                            .danger("present")
                            .implies("fluid", "present")
                            .made(),
                    finding("can-lift", Kind.YES_NO).perSide().danger("absent").made(),
                    finding("warm", Kind.YES_NO)
                            .perSide()
                            .danger("present")
                            .contradicts("looks-normal", "present")
                            .made(),
                    finding("looks-normal", Kind.YES_NO).perSide().made()),
            List.of(
                    computed("old", "age>=65"),
                    computed("girth-larger", "side-diff(girth)>=3.0"),
                    computed("fresh-injury", "injury=present AND injury-days<=7")));

    static final Terms TERMS = new Terms(
            CATALOGUE,
            Set.of("some-flag", "other-flag"),
            Set.of("some-flag/first-row"),
            Set.of("some-condition", "unexplained"),
            List.of(
                    new Terms.Clash(
                            "no-fluid-yet-tense",
                            Expression.parse("fluid=absent AND tense-fluid=present"),
                            "Fluid is tense but recorded as absent; look at both again."),
                    new Terms.Clash(
                            "average-above-worst",
                            Expression.parse("average > 1 x pain"),
                            "The average is above the worst; look at both again.")));

    static final CaseReader READER = new CaseReader(TERMS);

    static final String GOOD = """
            # A case of nobody.
            gerdy: 1
            case: sample-01
            title: A sentence that says what the case shows
            patient: {age: 41 years}
            visits:
              - date: 2026-03-02
                side: left
                findings:
                  injury: present
                  injury-days: 1 week
                  trend: worse
                  first-day: 2026-02-20
                  strength: {left: 12 kgf, right: 150}
                  fluid: absent
                  pain: 6.5
                notes: free text
                decision: {urgency: urgent, reason: seen by a colleague}
              - date: 2026-03-16
                side: both
                findings:
                  fluid: {left: absent, right: unable}
            expect:
              urgency: {at-least: urgent}
              raised: [some-flag]
              rows-raised: [some-flag/first-row]
              within: {some-condition: 3}
              never: [manage-here]
            """;

    private Sample() {}

    static CaseFile read(String text) throws MendableException {
        return READER.read("case.yaml", text.getBytes(StandardCharsets.UTF_8));
    }

    /** A case with these findings, one visit, left side. */
    static String with(String findings) {
        return with("left", findings);
    }

    static String with(String side, String findings) {
        return "gerdy: 1\ncase: sample\nvisits:\n  - date: 2026-03-02\n    side: " + side + "\n    findings:\n"
                + findings.lines().map(line -> "      " + line + "\n").reduce("", String::concat);
    }

    /** What is known in a visit with these answers. */
    static Observations known(Side side, Map<String, Recorded> answers) {
        return Observations.of(CATALOGUE, side, answers);
    }

    static Recorded sides(Answer left, Answer right) {
        return new Recorded.Sides(Optional.ofNullable(left), Optional.ofNullable(right));
    }

    static Recorded numbers(double left, double right) {
        return sides(new Answer.Quantity(left, "" + left), new Answer.Quantity(right, "" + right));
    }

    static Recorded number(double value) {
        return new Recorded.Whole(new Answer.Quantity(value, "" + value));
    }

    private static ComputedFinding computed(String id, String means) {
        return new ComputedFinding(id, id, Expression.parse(means), List.of(), Basis.JUDGEMENT);
    }

    private static Definition finding(String id, Kind kind) {
        return new Definition(id, kind);
    }

    private static final class Definition {
        private final String id;
        private final Kind kind;
        private List<String> choices = List.of();
        private String unit = "";
        private OptionalDouble min = OptionalDouble.empty();
        private OptionalDouble max = OptionalDouble.empty();
        private boolean perSide;
        private Optional<Expression> onlyIf = Optional.empty();
        private String danger = "";
        private List<FindingDefinition.Relation> contradicts = List.of();
        private List<FindingDefinition.Relation> implies = List.of();

        Definition(String id, Kind kind) {
            this.id = id;
            this.kind = kind;
        }

        Definition choices(String... words) {
            choices = List.of(words);
            return this;
        }

        Definition unit(String name, double least, double most) {
            unit = name;
            min = OptionalDouble.of(least);
            max = OptionalDouble.of(most);
            return this;
        }

        Definition perSide() {
            perSide = true;
            return this;
        }

        Definition onlyIf(String gate) {
            onlyIf = Optional.of(Expression.parse(gate));
            return this;
        }

        Definition danger(String state) {
            danger = state;
            return this;
        }

        Definition contradicts(String other, String value) {
            contradicts = List.of(new FindingDefinition.Relation("present", other, value));
            return this;
        }

        Definition implies(String other, String value) {
            implies = List.of(new FindingDefinition.Relation("present", other, value));
            return this;
        }

        FindingDefinition made() {
            return new FindingDefinition(
                    id,
                    "section",
                    "",
                    "Is there " + id + "?",
                    "",
                    kind,
                    choices,
                    unit,
                    min,
                    max,
                    perSide,
                    onlyIf,
                    false,
                    5,
                    "",
                    danger,
                    "",
                    contradicts,
                    implies,
                    "");
        }
    }
}
