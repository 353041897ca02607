package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.EvidenceTable;
import org.gerdy.engine.knowledge.Settings;

/**
 * Names the unknown findings that would move a condition's probability most: the chance of either answer times how far
 * that answer would move it.
 */
final class Settling {
    /** How many findings are named. */
    private static final int NAMED = 4;

    private final Map<String, List<Prospect>> prospects = new HashMap<>();

    Settling(EvidenceTable evidence, Settings settings) {
        double usualFalsePositive = settings.value("settle-false-positive");
        for (EvidenceRow row : evidence.rows()) {
            // A finding that can only speak against a condition settles nothing for it.
            if (row.whenPresent().map(ratio -> ratio.value() > 1).orElse(false)) {
                prospects
                        .computeIfAbsent(row.condition(), ignored -> new ArrayList<>())
                        .add(Prospect.of(row, usualFalsePositive));
            }
        }
    }

    /**
     * What one finding could tell about one condition.
     *
     * @param positive likelihood ratio when present
     * @param negative likelihood ratio when absent
     * @param falsePositive chance of it being present without the condition
     * @param sensitivity chance of it being present with the condition
     */
    private record Prospect(
            String finding, double positive, double negative, double falsePositive, double sensitivity) {
        static Prospect of(EvidenceRow row, double usualFalsePositive) {
            double positive = row.whenPresent().map(EvidenceRow.Ratio::value).orElse(1.0);
            double negative = row.whenAbsent().map(EvidenceRow.Ratio::value).orElse(1.0);
            boolean both = (positive > 1 && negative < 1) || (positive < 1 && negative > 1);
            double falsePositive = both ? (1 - negative) / (positive - negative) : usualFalsePositive;
            return new Prospect(
                    row.finding(), positive, negative, falsePositive, Math.min(0.99, positive * falsePositive));
        }

        /** Expected absolute change of a probability if the finding were known. */
        double expectedChange(double probability) {
            double chance = probability * sensitivity + (1 - probability) * falsePositive;
            return chance * Math.abs(after(probability, positive) - probability)
                    + (1 - chance) * Math.abs(after(probability, negative) - probability);
        }

        private static double after(double probability, double ratio) {
            double odds = probability / (1 - probability) * ratio;
            return odds / (1 + odds);
        }
    }

    /** What is still open at these observations. */
    Open open(Observations observations) {
        return new Open(observations);
    }

    /** The questions open at one set of observations, worked out once for all conditions. */
    final class Open {
        private final Observations observations;
        private final Map<String, List<String>> questions = new HashMap<>();

        private Open(Observations observations) {
            this.observations = observations;
        }

        /** The findings to ask next for a condition of this probability, greatest expected change first. */
        List<String> worthAsking(String condition, double probability) {
            Best best = new Best();
            for (Prospect prospect : prospects.getOrDefault(condition, List.of())) {
                double gain = prospect.expectedChange(probability);
                if (best.takes(gain)) {
                    questions(prospect.finding()).forEach(ask -> best.offer(ask, gain));
                }
            }
            return best.names();
        }

        private List<String> questions(String finding) {
            return questions.computeIfAbsent(
                    finding, id -> observations.isKnown(id) ? List.of() : observations.missing(id));
        }
    }

    /** The few greatest gains so far, each name once with its greatest gain; equal gains in order of name. */
    private static final class Best {
        private final List<Gain> gains = new ArrayList<>();

        private record Gain(String name, double value) {
            boolean before(Gain other) {
                return value > other.value || (value == other.value && name.compareTo(other.name) < 0);
            }
        }

        boolean takes(double gain) {
            return gains.size() < NAMED || gain >= gains.get(NAMED - 1).value();
        }

        void offer(String name, double value) {
            for (int i = 0; i < gains.size(); i++) {
                if (gains.get(i).name().equals(name)) {
                    if (gains.get(i).value() >= value) {
                        return;
                    }
                    gains.remove(i);
                    break;
                }
            }
            Gain gain = new Gain(name, value);
            int at = gains.size();
            while (at > 0 && gain.before(gains.get(at - 1))) {
                at--;
            }
            gains.add(at, gain);
            if (gains.size() > NAMED) {
                gains.remove(NAMED);
            }
        }

        List<String> names() {
            return gains.stream().map(Gain::name).toList();
        }
    }
}
