package org.gerdy.engine.drill;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.drill.DrillScore.Line;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.Condition;

/** The one thing that should have changed the mind. */
final class MindChange {
    private final DrillMaster master;

    MindChange(DrillMaster master) {
        this.master = master;
    }

    /** The finding that speaks most for what is right and against what was said. */
    Optional<Line> line(Inquiry inquiry, Commitment stated, ModelAnswer model, boolean under) {
        if (under && model.assessment().raisedFlags().stream().findFirst().isPresent()) {
            Flag flag = model.assessment().raisedFlags().get(0);
            Flag.Row row = flag.highest().orElseThrow();
            Line raised = Marker.raised(flag, row);
            return Optional.of(new Line(
                    raised.text() + (seen(inquiry, row) ? " You had that answer." : " You did not ask for it."),
                    raised.rule(),
                    raised.sources()));
        }
        CandidateResult leader = model.assessment().candidates().get(0);
        Optional<String> said = stated.confidences().entrySet().stream()
                .max(Map.Entry.<String, Double>comparingByValue()
                        .thenComparing(
                                Map.Entry.<String, Double>comparingByKey().reversed()))
                .map(Map.Entry::getKey);
        if (said.isEmpty() || said.get().equals(leader.condition())) {
            return Optional.empty();
        }
        return contrast(leader, said.get())
                .map(weight -> new Line(
                        weight.finding() + (weight.present() ? " present" : " absent") + " speaks for " + leader.name()
                                + String.format(
                                        Locale.ROOT,
                                        " (ratio %.1f) and for %s only by %.2g.",
                                        weight.ratio(),
                                        name(said.get()),
                                        Math.exp(other(said.get(), weight)))
                                + (master.knowledge().catalogue().askedBehind(weight.finding()).stream()
                                                .anyMatch(inquiry::asked)
                                        ? " You had that answer."
                                        : " You did not ask for it."),
                        "evidence.csv " + weight.finding() + "/" + leader.condition() + " ("
                                + weight.basis().word() + ")",
                        weight.sources()));
    }

    private boolean seen(Inquiry inquiry, Flag.Row row) {
        return row.reasons().stream()
                .limit(1)
                .flatMap(reason -> reason.findings().stream())
                .flatMap(read -> master.knowledge().catalogue().askedBehind(read.id()).stream())
                .allMatch(id -> inquiry.asked(id)
                        || inquiry.patient().given().containsKey(id)
                        || !inquiry.patient().answers().containsKey(id));
    }

    private Optional<CandidateResult.Weight> contrast(CandidateResult leader, String said) {
        CandidateResult.Weight best = null;
        double widest = 0;
        for (CandidateResult.Weight weight : leader.supporting()) {
            double other = other(said, weight);
            double apart = Math.log(weight.ratio()) - other;
            if (apart > widest) {
                widest = apart;
                best = weight;
            }
        }
        return Optional.ofNullable(best);
    }

    /** Logarithm of what the same finding says about another condition; 0 where the table is silent. */
    private double other(String condition, CandidateResult.Weight weight) {
        return master.knowledge().evidence().about(condition).stream()
                .filter(row -> row.finding().equals(weight.finding()))
                .flatMap(row -> row.ratio(weight.present()).stream())
                .mapToDouble(EvidenceRow.Ratio::log)
                .findFirst()
                .orElse(0);
    }

    private String name(String condition) {
        Condition known = master.knowledge().conditions().get(condition);
        return known == null ? condition : known.name();
    }
}
