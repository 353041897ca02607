package org.gerdy.engine.vocabulary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.gerdy.engine.logic.Expression;
import org.junit.jupiter.api.Test;

class CatalogueTest {
    private static ComputedFinding computed(String id, String means) {
        return new ComputedFinding(id, id, Expression.parse(means), List.of(), Basis.JUDGEMENT);
    }

    private final Catalogue catalogue = Catalogue.of(
            List.of(YesNo.question("warm-joint"), YesNo.question("swollen-joint"), YesNo.question("girth")),
            List.of(
                    computed("hot", "warm-joint=present AND swollen-joint=present"),
                    computed("larger", "side-diff(girth)>=3"),
                    computed("hot-or-larger", "hot=present OR larger=present")));

    @Test
    void aSlipOfTheKeyFindsTheIdThatWasMeant() {
        assertThat(catalogue.nearest("warm-jiont")).contains("warm-joint");
        assertThat(catalogue.nearest("swolen-joint")).contains("swollen-joint");
    }

    @Test
    void aWordLikeNothingFindsNothing() {
        assertThat(catalogue.nearest("xylophone-quartet")).isEmpty();
        assertThat(Catalogue.nearest("anything", List.of())).isEmpty();
    }

    @Test
    void equallyNearWordsAreTakenInAlphabeticalOrder() {
        assertThat(Catalogue.nearest("cat", List.of("hat", "bat"))).contains("bat");
    }

    @Test
    void anIdDefinedTwiceIsRefusedByName() {
        assertThatThrownBy(() -> Catalogue.of(List.of(YesNo.question("a"), YesNo.question("a")), List.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("The finding a is defined twice.");
        assertThatThrownBy(() -> Catalogue.of(List.of(YesNo.question("a")), List.of(computed("a", "a=present"))))
                .hasMessage("The finding a is defined twice.");
    }

    @Test
    void computedFindingsAreFollowedDownToWhatIsAsked() {
        assertThat(catalogue.askedBehind("hot-or-larger")).containsExactly("warm-joint", "swollen-joint", "girth");
        assertThat(catalogue.askedBehind("girth")).containsExactly("girth");
    }

    @Test
    void aFindingReadAsASideDifferenceIsComparedBetweenSides() {
        assertThat(catalogue.comparedBetweenSides()).containsExactly("girth");
    }
}
