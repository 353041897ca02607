package org.gerdy.engine.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

class QuadraticScoreTest {
    private static final List<String> CLASSES = List.of("a", "b", "c", "d", "e", "f");

    /** The score of one outcome: squared distance from certainty of it. */
    private static double ofOutcome(Map<String, Double> stated, String outcome) {
        return QuadraticScore.distance(stated, Map.of(outcome, 1.0));
    }

    /** What is expected of stating one thing and thinking another, over the outcomes. */
    private static double expected(Map<String, Double> stated, Map<String, Double> thought) {
        double sum = 0;
        for (Map.Entry<String, Double> one : thought.entrySet()) {
            sum += one.getValue() * ofOutcome(stated, one.getKey());
        }
        return sum;
    }

    @Property
    void nobodyGainsByStatingAnythingButWhatTheyThink(
            @ForAll("distributions") Map<String, Double> thought, @ForAll("distributions") Map<String, Double> other) {
        double honest = expected(thought, thought);
        double dishonest = expected(other, thought);
        assertThat(dishonest).isGreaterThanOrEqualTo(honest - 1e-12);
        // Strictly proper: the loss of stating something else is the squared distance to it.
        assertThat(dishonest - honest).isCloseTo(QuadraticScore.distance(other, thought), within(1e-9));
    }

    @Property
    void againstSharesThatAreThemselvesUncertainTheBestStatementIsTheirMean(
            @ForAll("distributions") Map<String, Double> one,
            @ForAll("distributions") Map<String, Double> two,
            @ForAll("distributions") Map<String, Double> other) {
        Map<String, Double> mean = new LinkedHashMap<>();
        one.forEach((id, share) -> mean.put(id, (share + two.get(id)) / 2));
        double best = QuadraticScore.distance(mean, one) + QuadraticScore.distance(mean, two);
        assertThat(QuadraticScore.distance(other, one) + QuadraticScore.distance(other, two))
                .isGreaterThanOrEqualTo(best - 1e-12);
    }

    @Property
    void theOrderOfTheClassesChangesNothing(
            @ForAll("distributions") Map<String, Double> one, @ForAll("distributions") Map<String, Double> two) {
        Map<String, Double> turned = new LinkedHashMap<>();
        List<String> ids = new java.util.ArrayList<>(one.keySet());
        java.util.Collections.reverse(ids);
        ids.forEach(id -> turned.put(id, one.get(id)));
        assertThat(QuadraticScore.distance(turned, two)).isCloseTo(QuadraticScore.distance(one, two), within(1e-12));
    }

    @Test
    void certaintyOfTheWrongOneIsTheWorstThereIs() {
        // Brier 1950 (recalled): the score runs from 0 to 2.
        assertThat(ofOutcome(Map.of("a", 1.0), "b")).isEqualTo(2);
        assertThat(ofOutcome(Map.of("a", 1.0), "a")).isZero();
    }

    @Test
    void whatIsNotNamedSharesWhatIsLeftEvenly() {
        assertThat(QuadraticScore.whole(Map.of("a", 0.6), List.of("a", "b", "c")))
                .containsEntry("a", 0.6)
                .hasEntrySatisfying("b", share -> assertThat(share).isCloseTo(0.2, within(1e-12)))
                .hasEntrySatisfying("c", share -> assertThat(share).isCloseTo(0.2, within(1e-12)));
    }

    @Provide
    Arbitrary<Map<String, Double>> distributions() {
        return Arbitraries.doubles()
                .between(0.01, 1)
                .list()
                .ofSize(CLASSES.size())
                .map(weights -> {
                    double sum =
                            weights.stream().mapToDouble(Double::doubleValue).sum();
                    Map<String, Double> shares = new LinkedHashMap<>();
                    for (int i = 0; i < CLASSES.size(); i++) {
                        shares.put(CLASSES.get(i), weights.get(i) / sum);
                    }
                    return shares;
                });
    }
}
