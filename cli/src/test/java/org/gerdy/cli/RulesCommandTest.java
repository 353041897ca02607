package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RulesCommandTest {
    private static final KnowledgeBase KNOWLEDGE = LateralKnee.knowledgeBase();

    @ParameterizedTest(name = "rules list {0}")
    @ValueSource(strings = {"rules", "flags", "conditions", "findings", "referrals", "scores", "sources"})
    void everyKindIsListedOneToALine(String kind) {
        Run run = Run.of("rules", "list", kind);
        assertThat(run.code()).isZero();
        assertThat(run.out().lines()).isNotEmpty().allMatch(line -> line.matches("[A-Za-z0-9_/-]+: .+"));
        assertThat(run.out()).doesNotContain("null");
    }

    @Test
    void aKindNobodyKnowsEndsWithTwoAndNamesTheKinds() {
        Run run = Run.of("rules", "list", "colours");
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("use one of: rules, flags, conditions, findings");
    }

    @ParameterizedTest(name = "every card of {0}")
    @ValueSource(strings = {"rules", "flags", "conditions", "findings", "referrals", "scores", "sources"})
    void everyIdOfEveryKindHasACardThatFitsTheScreen(String kind) {
        Cards cards = new Cards(KNOWLEDGE);
        List<String> wide = new ArrayList<>();
        List<String> odd = new ArrayList<>();
        for (String line : cards.list(kind).orElseThrow()) {
            String id = line.substring(0, line.indexOf(':'));
            String card = cards.card(id).orElseThrow(() -> new AssertionError("no card for " + id));
            // The text of a rule is shown as its author wrote it.
            String written = Optional.ofNullable(KNOWLEDGE.rules().get(id))
                    .map(RuleCard::text)
                    .orElse("\0");
            card.replace(written, "")
                    .lines()
                    .filter(one -> one.length() > 80)
                    .forEach(one -> wide.add(id + ": " + one));
            if (card.contains("null")
                    || card.contains("Infinity")
                    || card.contains("922337203685477")
                    || card.contains("Optional")) {
                odd.add(id);
            }
        }
        assertThat(odd).as("cards with the inside showing").isEmpty();
        assertThat(wide).as("lines wider than 80 columns").isEmpty();
    }

    @Test
    void aCardOfAnUnknownIdEndsWithOneAndNamesTheNearest() {
        Run run = Run.of("rules", "card", "iliotibial-band-sindrome", "possible-fracture");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).contains("did you mean 'iliotibial-band-syndrome'?");
        assertThat(run.out()).contains("Red flag possible-fracture");
    }
}
