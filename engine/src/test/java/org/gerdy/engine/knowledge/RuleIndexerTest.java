package org.gerdy.engine.knowledge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.gerdy.engine.vocabulary.Basis;
import org.junit.jupiter.api.Test;

class RuleIndexerTest {
    private static final String HEAD = """
            package sample

            import org.gerdy.engine.fact.Finding;
            """;

    static final String GOOD = HEAD + """

            rule "Warm and swollen: look again"
              @id("warm-and-swollen") @row("some-flag/first-row") @source("one1999, two2001") @basis("published")
              @because("Both together mean more than either")
            when
              Finding( id == "warm", present )
              not Finding( id in ( "cold", "numb" ), present )
              ( Finding( id == "swollen", present ) or Finding( id == "site", choice == "front" ) )
            then
              System.identityHashCode( "nothing" );
            end
            """;

    private static void refused(String drl, String start) {
        assertThatThrownBy(() -> RuleIndexer.index(InMemory.with("topic/rules.drl", drl)))
                .isInstanceOf(KnowledgeException.class)
                .hasMessageStartingWith(start);
    }

    @Test
    void aCardHoldsWhatItsAuthorWrote() {
        Map<String, RuleCard> cards = RuleIndexer.index(InMemory.with("topic/rules.drl", GOOD));
        assertThat(cards).containsOnlyKeys("warm-and-swollen");
        RuleCard card = cards.get("warm-and-swollen");
        assertThat(card.name()).isEqualTo("Warm and swollen: look again");
        assertThat(card.row()).isEqualTo("some-flag/first-row");
        assertThat(card.sources()).containsExactly("one1999", "two2001");
        assertThat(card.basis()).isEqualTo(Basis.PUBLISHED);
        assertThat(card.because()).isEqualTo("Both together mean more than either");
        assertThat(card.file()).isEqualTo("topic/rules.drl");
        assertThat(card.line()).isEqualTo(5);
        assertThat(card.text()).startsWith("rule \"Warm and swollen").endsWith("end");
    }

    @Test
    void everyFindingARuleReadsIsListedInTheOrderWritten() {
        assertThat(RuleIndexer.index(InMemory.with("topic/rules.drl", GOOD))
                        .get("warm-and-swollen")
                        .reads())
                .containsExactly("warm", "cold", "numb", "swollen", "site");
    }

    @Test
    void aConditionOnAnyOtherChoiceOrFindingIsNotReadAsOneOnThese() {
        for (String other : new String[] {
            GOOD.replace("choice == \"front\"", "choice not in ( \"front\" )"),
            GOOD.replace("choice == \"front\"", "choice != \"front\""),
            GOOD.replace("id == \"warm\"", "id != \"warm\"")
        }) {
            assertThat(RuleIndexer.index(InMemory.with("topic/rules.drl", other))
                            .get("warm-and-swollen")
                            .logic())
                    .as(other)
                    .isEmpty();
        }
        assertThat(RuleIndexer.index(InMemory.with("topic/rules.drl", GOOD))
                        .get("warm-and-swollen")
                        .logic())
                .isPresent();
    }

    @Test
    void aRuleThatDoesNotParseIsToldAtItsLine() {
        refused(GOOD.replace("when\n", "whenever\n"), "topic/rules.drl:");
        assertThatThrownBy(() -> RuleIndexer.index(
                        InMemory.with("topic/rules.drl", GOOD.replace("Finding( id == \"warm\"", "Finding( id == "))))
                .isInstanceOf(KnowledgeException.class)
                .hasMessageMatching("(?s)topic/rules\\.drl:[0-9]+: .+");
    }

    @Test
    void aRuleWithoutIdBasisOrReasonIsRefused() {
        String message = "topic/rules.drl:5: the rule \"Warm and swollen: look again\" needs @id, @basis and @because.";
        refused(GOOD.replace("@id(\"warm-and-swollen\")", ""), message);
        refused(GOOD.replace("@basis(\"published\")", ""), message);
        refused(GOOD.replace("@because(\"Both together mean more than either\")", ""), message);
    }

    @Test
    void aBasisNobodyKnowsIsRefused() {
        refused(
                GOOD.replace("@basis(\"published\")", "@basis(\"hearsay\")"),
                "topic/rules.drl:5: 'hearsay' is not a basis; use published, recalled, common-practice or judgement.");
    }

    @Test
    void anIdUsedTwiceIsRefusedNamingBothFiles() {
        assertThatThrownBy(() ->
                        RuleIndexer.index(InMemory.with("a/rules.drl", GOOD).and("b/rules.drl", GOOD)))
                .hasMessage("b/rules.drl:5: the rule id 'warm-and-swollen' is already used in a/rules.drl; "
                        + "give this rule its own @id.");
    }

    @Test
    void aKnowledgeBaseWithoutARuleIsRefused() {
        assertThatThrownBy(() -> RuleIndexer.index(InMemory.with("a/rules.drl", HEAD)))
                .hasMessage("There is no .drl file with a rule here; name a knowledge base directory.");
    }
}
