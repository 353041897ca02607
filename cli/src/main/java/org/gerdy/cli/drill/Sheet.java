package org.gerdy.cli.drill;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.cli.intake.Screen.Paragraph;
import org.gerdy.engine.drill.Commitment;
import org.gerdy.engine.vocabulary.Urgency;

/** What a learner is about to commit to. Each change says what is wrong with it, or nothing. */
final class Sheet {
    private final int most;
    private Optional<Urgency> urgency = Optional.empty();
    private final Map<String, Double> confidences = new LinkedHashMap<>();
    private final Set<String> factors = new LinkedHashSet<>();
    private final Set<String> plan = new LinkedHashSet<>();
    private final Set<String> settles = new LinkedHashSet<>();

    /**
     * @param most how many candidates may stand on it
     */
    Sheet(int most) {
        this.most = most;
    }

    Optional<String> urgency(Urgency level) {
        urgency = Optional.of(level);
        return Optional.empty();
    }

    Optional<String> confident(String id, double confidence) {
        double others = confidences.entrySet().stream()
                .filter(entry -> !entry.getKey().equals(id))
                .mapToDouble(Map.Entry::getValue)
                .sum();
        if (others + confidence > 1 + 1e-9) {
            return Optional.of("Together that is more than 100 %; " + Math.round((1 - others) * 100) + " % is left.");
        }
        if (!confidences.containsKey(id) && confidences.size() >= most) {
            return Optional.of("Up to " + most + " candidates; drop one first.");
        }
        confidences.put(id, confidence);
        return Optional.empty();
    }

    Optional<String> factor(String id) {
        factors.add(id);
        return Optional.empty();
    }

    Optional<String> plan(String id) {
        plan.add(id);
        return Optional.empty();
    }

    Optional<String> settle(String id) {
        settles.add(id);
        return Optional.empty();
    }

    Optional<String> drop(String text) {
        String id = text.toLowerCase(Locale.ROOT).replace(' ', '-');
        boolean was = confidences.remove(id) != null;
        was |= factors.remove(id);
        was |= plan.remove(id);
        was |= settles.remove(id);
        return was ? Optional.empty() : Optional.of("'" + text + "' is not on your sheet.");
    }

    List<Paragraph> lines() {
        String candidates = confidences.entrySet().stream()
                .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                .map(one -> one.getKey() + " " + Math.round(one.getValue() * 100) + " %")
                .collect(Collectors.joining(", "));
        return List.of(
                new Paragraph("  urgency     ", urgency.map(Urgency::word).orElse("not stated")),
                new Paragraph("  candidates  ", candidates.isEmpty() ? "none" : candidates),
                new Paragraph("  factors     ", joined(factors)),
                new Paragraph("  plan        ", joined(plan)),
                new Paragraph("  settles     ", joined(settles)));
    }

    private static String joined(Set<String> ids) {
        return ids.isEmpty() ? "none" : String.join(", ", ids);
    }

    /** All of it; empty while no urgency is stated. */
    Optional<Commitment> commitment() {
        return urgency.map(level -> new Commitment(level, confidences, factors, plan, settles));
    }
}
