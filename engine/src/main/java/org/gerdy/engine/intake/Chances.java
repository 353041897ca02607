package org.gerdy.engine.intake;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.assessment.Outlook;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.IntakeTables;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** How likely an answer is taken to be before it is given. Orders questions; says nothing about the patient. */
final class Chances {
    private final KnowledgeBase knowledge;
    private final Map<String, Map<String, EvidenceRow>> rows = new HashMap<>();

    Chances(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        for (EvidenceRow row : knowledge.evidence().rows()) {
            rows.computeIfAbsent(row.finding(), ignored -> new HashMap<>()).put(row.condition(), row);
        }
    }

    /**
     * The chance of an answer: of a danger sign as the order table or the settings say, of another sign from the shares of
     * the candidates and its likelihood ratios, of a choice or number alike for each of {@code count}.
     */
    double of(FindingDefinition finding, Answer answer, int count, Outlook now, Optional<IntakeTables.Place> place) {
        if (!(answer instanceof Answer.State state)) {
            return 1.0 / count;
        }
        double present;
        if (finding.dangerWhen().isEmpty()) {
            present = place.map(IntakeTables.Place::chance)
                    .filter(java.util.OptionalDouble::isPresent)
                    .map(java.util.OptionalDouble::getAsDouble)
                    .orElseGet(() -> mixture(finding.id(), now));
        } else {
            double danger = place.map(IntakeTables.Place::chance)
                    .filter(java.util.OptionalDouble::isPresent)
                    .map(java.util.OptionalDouble::getAsDouble)
                    .orElseGet(() -> knowledge.settings().value("intake-danger-chance"));
            present = finding.isReversed() ? 1 - danger : danger;
        }
        return state == Answer.State.PRESENT ? present : 1 - present;
    }

    /** How often the sign is there, over all candidates by their shares. */
    private double mixture(String finding, Outlook now) {
        Map<String, EvidenceRow> about = rows.getOrDefault(finding, Map.of());
        double elsewhere = knowledge.settings().value("settle-false-positive");
        double chance = 0;
        for (Map.Entry<String, Double> share : now.shares().entrySet()) {
            EvidenceRow row = about.get(share.getKey());
            chance += share.getValue() * (row == null ? elsewhere : sensitivity(row, elsewhere));
        }
        return Math.max(0.01, Math.min(0.99, chance));
    }

    /** From both ratios the false positive rate is (1 - LR-) / (LR+ - LR-), and the sensitivity LR+ times that. */
    private static double sensitivity(EvidenceRow row, double elsewhere) {
        double positive = row.whenPresent().map(EvidenceRow.Ratio::value).orElse(1.0);
        double negative = row.whenAbsent().map(EvidenceRow.Ratio::value).orElse(1.0);
        boolean opposed = (positive > 1 && negative < 1) || (positive < 1 && negative > 1);
        double falsePositive = opposed ? (1 - negative) / (positive - negative) : elsewhere;
        return Math.min(0.99, positive * falsePositive);
    }
}
