package org.gerdy.engine.knowledge;

import java.util.List;
import java.util.Map;
import org.gerdy.engine.vocabulary.Basis;

/** How often each condition is behind the complaint, before anything is known, by population. */
public final class Priors {
    private final Map<String, PopulationCard> populations;
    private final Map<String, Map<String, Prior>> byPopulation;

    /** Priors by population and condition. */
    public Priors(Map<String, PopulationCard> populations, Map<String, Map<String, Prior>> byPopulation) {
        this.populations = populations;
        this.byPopulation = byPopulation;
    }

    /** A probability with its 95 % bounds, all strictly between 0 and 1. */
    public record Prior(double probability, double low, double high, Basis basis, List<String> sources) {
        /** Log odds. */
        public double logOdds() {
            return Math.log(probability / (1 - probability));
        }

        /** Standard deviation of the log odds, from the width of the bounds. */
        public double deviation() {
            double lowOdds = Math.log(low / (1 - low));
            double highOdds = Math.log(high / (1 - high));
            return (highOdds - lowOdds) / (2 * 1.959963984540054);
        }
    }

    /** A population as its card shows it. */
    public record PopulationCard(
            String id, String label, String who, String arithmetic, Basis basis, List<String> sources) {}

    /** The populations, by id. */
    public Map<String, PopulationCard> populations() {
        return populations;
    }

    /** The population of this id. Throws {@link IllegalArgumentException} for an unknown one. */
    public PopulationCard population(String id) {
        PopulationCard card = populations.get(id);
        if (card == null) {
            throw new IllegalArgumentException("There is no population '" + id + "' in populations.csv.");
        }
        return card;
    }

    /** The prior of a condition in a population. Throws {@link IllegalArgumentException} when there is none. */
    public Prior of(String population, String condition) {
        Prior prior = of(population).get(condition);
        if (prior == null) {
            throw new IllegalArgumentException("priors.csv has no '" + condition + "' for '" + population + "'.");
        }
        return prior;
    }

    /** The priors of one population, by condition. Throws {@link IllegalArgumentException} for an unknown one. */
    public Map<String, Prior> of(String population) {
        Map<String, Prior> priors = byPopulation.get(population);
        if (priors == null) {
            throw new IllegalArgumentException("There is no population '" + population + "' in priors.csv.");
        }
        return priors;
    }
}
