package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.intake.QuestionOrder;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;

/** One patient being asked, question by question. Keeps what was asked, when, and what was known then. For one thread. */
public final class Inquiry {
    private final DrillPatient patient;
    private final LogicReasoner reasoner;
    private final QuestionOrder order;
    private final Map<String, Step> steps = new LinkedHashMap<>();
    private Observations known;
    private Assessment assessment;
    private final Standing start;

    /** An inquiry that knows what the booking and the opening say. */
    public Inquiry(DrillPatient patient, LogicReasoner reasoner, QuestionOrder order, Observations start) {
        this.patient = patient;
        this.reasoner = reasoner;
        this.order = order;
        this.known = start;
        this.assessment = reasoner.assess(patient.id(), known);
        this.start = Standing.of(assessment);
    }

    /** How a question came out. */
    public enum Outcome {
        /** There is an answer. */
        ANSWERED,
        /** The patient cannot say, or it could not be done. */
        UNABLE,
        /** It makes no sense in this patient. */
        NOT_APPLICABLE
    }

    /**
     * What is known at one moment.
     *
     * @param urgency the highest raised level; empty while nothing is raised and something is open
     * @param open flags something is still unasked for
     * @param shares each candidate's share
     */
    public record Standing(Optional<Urgency> urgency, Set<String> open, Map<String, Double> shares) {
        static Standing of(Assessment assessment) {
            Map<String, Double> shares = new LinkedHashMap<>();
            for (CandidateResult candidate : assessment.candidates()) {
                shares.put(candidate.condition(), candidate.share());
            }
            Set<String> open = new LinkedHashSet<>();
            assessment.openFlags().forEach(flag -> open.add(flag.id()));
            return new Standing(assessment.urgency(), open, shares);
        }
    }

    /**
     * One question asked.
     *
     * @param finding the question
     * @param outcome how it came out
     * @param shown the answer as recorded, empty when there is none
     * @param heldBackBy flags that held this test back when it was done; empty for a safe one
     * @param after what was known afterwards
     */
    public record Step(String finding, Outcome outcome, String shown, List<String> heldBackBy, Standing after) {}

    /** The patient. */
    public DrillPatient patient() {
        return patient;
    }

    /** What is known now. */
    public Observations known() {
        return known;
    }

    /** What follows from it. */
    public Assessment assessment() {
        return assessment;
    }

    /** What was known before the first question. */
    public Standing start() {
        return start;
    }

    /** Every question asked, in order. */
    public List<Step> steps() {
        return List.copyOf(steps.values());
    }

    /** Whether this was asked already. */
    public boolean asked(String finding) {
        return steps.containsKey(finding);
    }

    /** The flags that would hold this test back if it were done now. */
    public List<String> heldBack(String finding) {
        return order.heldBackBy(finding, assessment);
    }

    /** Asks one question; asking it again tells the same and counts once. */
    public Step ask(String finding) {
        Step before = steps.get(finding);
        if (before != null) {
            return before;
        }
        List<String> held = heldBack(finding);
        Recorded answer = patient.answers().get(finding);
        Outcome outcome = Outcome.ANSWERED;
        if (answer == null) {
            FindingDefinition definition = known.catalogue().finding(finding).orElseThrow();
            boolean shut = definition
                    .onlyIf()
                    .map(gate -> gate.in(patient.whole(known.catalogue())) == Truth.FALSE)
                    .orElse(false);
            outcome = shut ? Outcome.NOT_APPLICABLE : Outcome.UNABLE;
        } else {
            known = known.with(finding, answer);
            assessment = reasoner.assess(patient.id(), known);
        }
        Step step =
                new Step(finding, outcome, answer == null ? "" : known.shown(finding), held, Standing.of(assessment));
        steps.put(finding, step);
        return step;
    }

    /** The questions that got no answer. */
    Set<String> unanswered() {
        Set<String> unanswered = new LinkedHashSet<>();
        for (Step step : steps.values()) {
            if (step.outcome() != Outcome.ANSWERED) {
                unanswered.add(step.finding());
            }
        }
        return unanswered;
    }

    /** The questions asked, in order. */
    List<String> path() {
        return new ArrayList<>(steps.keySet());
    }
}
