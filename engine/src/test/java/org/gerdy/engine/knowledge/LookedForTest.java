package org.gerdy.engine.knowledge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.junit.jupiter.api.Test;

class LookedForTest {
    private static final Finding SWOLLEN = new Finding("swollen", true, false, false, false, "");
    private static final Finding NOT_SWOLLEN = new Finding("swollen", false, true, false, true, "");
    private static final Finding NOT_YOUNG = new Finding("young", false, true, false, true, "");
    private static final Finding WORSE = new Finding("trend", false, false, false, false, "worse");
    private static final Finding COULD_NOT_WALK = new Finding("walks", false, false, true, false, "");

    private static RuleCard rule(String id, Set<String> reads, Optional<Expression> logic) {
        return new RuleCard(id, id, "a.drl", 1, "", List.of(), Basis.JUDGEMENT, "so", reads, logic, "");
    }

    private static LookedFor rules(String... logics) {
        List<RuleCard> cards = new java.util.ArrayList<>();
        for (String logic : logics) {
            Expression read = Expression.parse(logic);
            cards.add(rule(logic, new LinkedHashSet<>(read.findings()), Optional.of(read)));
        }
        return new LookedFor(cards);
    }

    @Test
    void aFactIsToldWhenTheRuleThatLooksForItCanStillHold() {
        LookedFor rules = rules("swollen=present AND NOT recorded(NOT young=present)");
        assertThat(rules.worthTelling(List.of(SWOLLEN, NOT_YOUNG))).containsExactly(SWOLLEN, NOT_YOUNG);
        assertThat(rules.worthTelling(List.of(SWOLLEN))).containsExactly(SWOLLEN);
    }

    @Test
    void aFactIsKeptBackWhenEveryRuleThatLooksForItLacksAnother() {
        LookedFor rules = rules("swollen=present AND NOT recorded(NOT young=present)", "trend=worse");
        assertThat(rules.worthTelling(List.of(NOT_SWOLLEN, NOT_YOUNG, WORSE))).containsExactly(WORSE);
    }

    @Test
    void oneOfSeveralIsEnough() {
        LookedFor rules = rules("(swollen=present OR trend=worse) AND young=absent");
        assertThat(rules.worthTelling(List.of(WORSE, NOT_YOUNG))).containsExactly(WORSE, NOT_YOUNG);
        assertThat(rules.worthTelling(List.of(NOT_YOUNG))).isEmpty();
    }

    @Test
    void aCountIsLeftToTheRules() {
        LookedFor rules = rules("at-least-2(swollen=present, trend=worse, young=absent)");
        assertThat(rules.worthTelling(List.of(WORSE))).containsExactly(WORSE);
    }

    @Test
    void aRuleNobodyCanReadGetsEveryFactOfWhatItNames() {
        LookedFor rules = new LookedFor(List.of(rule("free", Set.of("walks", "swollen"), Optional.empty())));
        assertThat(rules.worthTelling(List.of(COULD_NOT_WALK, NOT_SWOLLEN, NOT_YOUNG)))
                .containsExactly(COULD_NOT_WALK, NOT_SWOLLEN);
    }
}
