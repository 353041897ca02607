package org.gerdy.engine.knowledge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.junit.jupiter.api.Test;

class LookedForTest {
    private static final Catalogue CATALOGUE = Catalogue.of(
            List.of(
                    asked("swollen", Kind.YES_NO, Optional.empty()),
                    asked("tense", Kind.YES_NO, Optional.of("swollen=present")),
                    asked("walks", Kind.YES_NO, Optional.empty()),
                    asked("trend", Kind.CHOICE, Optional.empty()),
                    asked("age", Kind.NUMBER, Optional.empty())),
            List.of(new ComputedFinding(
                    "young", "young", Expression.parse("age<18"), List.of(), Basis.COMMON_PRACTICE)));
    private static final Recorded PRESENT = new Recorded.Whole(Answer.State.PRESENT);
    private static final Recorded ABSENT = new Recorded.Whole(Answer.State.ABSENT);
    private static final Recorded WORSE = new Recorded.Whole(new Answer.Choice("worse"));
    private static final Recorded FORTY = new Recorded.Whole(new Answer.Quantity(40, "40"));

    private static FindingDefinition asked(String id, Kind kind, Optional<String> onlyIf) {
        return new FindingDefinition(
                id,
                "section",
                "",
                id + "?",
                "",
                kind,
                kind == Kind.CHOICE ? List.of("better", "worse") : List.of(),
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                false,
                onlyIf.map(Expression::parse),
                false,
                5,
                "",
                "",
                "",
                List.of(),
                List.of(),
                "");
    }

    private static RuleCard rule(Set<String> reads, Optional<Expression> logic, String text) {
        return new RuleCard(text, text, "a.drl", 1, "", List.of(), Basis.JUDGEMENT, "so", reads, logic, text);
    }

    private static LookedFor rules(String... logics) {
        List<RuleCard> cards = new ArrayList<>();
        for (String logic : logics) {
            Expression read = Expression.parse(logic);
            cards.add(rule(new LinkedHashSet<>(read.findings()), Optional.of(read), logic));
        }
        return new LookedFor(CATALOGUE, cards);
    }

    private static Set<String> worth(LookedFor rules, Map<String, Recorded> recorded) {
        return rules.worth(Observations.of(CATALOGUE, Side.LEFT, recorded), Set.of())
                .findings();
    }

    @Test
    void whatARuleLooksForIsToldWhenTheRuleCanStillHold() {
        LookedFor rules = rules("swollen=present AND NOT recorded(NOT young=present)");
        assertThat(worth(rules, Map.of("swollen", PRESENT, "age", FORTY)))
                .containsExactlyInAnyOrder("swollen", "young");
    }

    @Test
    void itIsKeptBackWhenEveryRuleThatLooksForItLacksAnother() {
        LookedFor rules = rules("swollen=present AND NOT recorded(NOT young=present)", "trend=worse");
        assertThat(worth(rules, Map.of("swollen", ABSENT, "age", FORTY, "trend", WORSE)))
                .containsExactly("trend");
    }

    @Test
    void oneOfSeveralIsEnough() {
        LookedFor rules = rules("(swollen=present OR trend=worse) AND young=absent");
        assertThat(worth(rules, Map.of("trend", WORSE, "age", FORTY))).contains("trend", "young");
        assertThat(worth(rules, Map.of("age", FORTY))).isEmpty();
    }

    @Test
    void aCountIsLeftToTheRulesOnceSoManyAreThere() {
        LookedFor rules = rules("at-least-2(swollen=present, trend=worse, young=absent)");
        assertThat(worth(rules, Map.of("trend", WORSE))).isEmpty();
        assertThat(worth(rules, Map.of("trend", WORSE, "age", FORTY))).contains("trend", "young");
    }

    @Test
    void aGateThatIsShutRulesOutWhatNobodyRecorded() {
        LookedFor rules = rules("NOT tense=present");
        assertThat(worth(rules, Map.of("swollen", ABSENT))).containsExactly("tense");
        assertThat(worth(rules, Map.of("swollen", PRESENT))).isEmpty();
    }

    @Test
    void aRuleNobodyCanReadGetsEveryFactOfWhatItNames() {
        LookedFor rules = new LookedFor(CATALOGUE, List.of(rule(Set.of("walks", "swollen"), Optional.empty(), "free")));
        assertThat(worth(rules, Map.of())).containsExactlyInAnyOrder("walks", "swollen");
    }

    @Test
    void aRuleThatNeedsALaterFactIsToldItsFindingsWithThat() {
        LookedFor rules = new LookedFor(
                CATALOGUE,
                List.of(rule(Set.of("walks"), Optional.empty(), "when\n  Stage( name == \"a\" )\n  Finding()\nthen")));
        Observations nothing = Observations.of(CATALOGUE, Side.LEFT, Map.of());
        assertThat(rules.worth(nothing, Set.of()).findings()).isEmpty();
        assertThat(rules.worth(nothing, Set.of("Stage")).findings()).containsExactly("walks");
        assertThat(rules.waitsFor("Stage")).isTrue();
        assertThat(rules.waitsFor("Candidate")).isFalse();
    }

    @Test
    void aRuleThatCanDoWithoutTheLaterFactIsToldItsFindingsAtOnce() {
        for (String condition : List.of("Stage()\n  or Finding()", "not Stage()\n  Finding()")) {
            LookedFor rules = new LookedFor(
                    CATALOGUE, List.of(rule(Set.of("walks"), Optional.empty(), "when\n  " + condition + "\nthen")));
            assertThat(worth(rules, Map.of())).containsExactly("walks");
        }
    }
}
