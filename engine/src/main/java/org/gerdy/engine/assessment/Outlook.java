package org.gerdy.engine.assessment;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * What an assessment comes to, without its reasons: enough to compare two courses of an intake.
 *
 * @param urgency the highest raised level; manage-here only when no flag is open; empty otherwise
 * @param raised every raised flag with its highest raised row
 * @param open flags something is still unasked for, raised ones included
 * @param shares each candidate's share, 0 to 1, in table order
 */
public record Outlook(
        Optional<Urgency> urgency, Map<String, RedFlagRow> raised, Set<String> open, Map<String, Double> shares) {

    /** Whether no flag is open. */
    public boolean screeningComplete() {
        return open.isEmpty();
    }

    /** The candidate with the largest share; the first by id where two are equal. Empty without candidates. */
    public Optional<String> leading() {
        return shares.entrySet().stream()
                .min(Map.Entry.<String, Double>comparingByValue().reversed().thenComparing(Map.Entry.comparingByKey()))
                .map(Map.Entry::getKey);
    }

    /** How far the candidates would move: half the sum of absolute differences of shares, 0 to 1. */
    public double candidatesMoved(Outlook other) {
        double sum = 0;
        for (Map.Entry<String, Double> share : shares.entrySet()) {
            sum += Math.abs(share.getValue() - other.shares().getOrDefault(share.getKey(), 0.0));
        }
        for (Map.Entry<String, Double> share : other.shares().entrySet()) {
            sum += shares.containsKey(share.getKey()) ? 0 : share.getValue();
        }
        return sum / 2;
    }
}
