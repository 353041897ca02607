package org.gerdy.engine.drill;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.FactorFinding;
import org.gerdy.engine.intake.NextQuestions;
import org.gerdy.engine.intake.QuestionOrder;
import org.gerdy.engine.intake.Suggestion;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.FactorVerdicts;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.reasoning.PlanReasoner;
import org.gerdy.engine.reasoning.Probe;
import org.gerdy.engine.reasoning.Reasoner;
import org.gerdy.engine.vocabulary.Urgency;

/** Knows the best order of questions and the model answer of any patient. For one thread. */
public final class DrillMaster {
    /** Questions of one walk at most; far above what any patient needs. */
    private static final int MOST = 400;
    /** Rounds of asking what plan items wait for. */
    private static final int PLAN_ROUNDS = 4;

    private final KnowledgeBase knowledge;
    private final DrillTables tables;
    private final FactorTables factors;
    private final PlanTables plans;
    private final LogicReasoner reasoner;
    private final QuestionOrder order;
    private final PlanReasoner planReasoner;

    /** A master over this knowledge base. */
    public DrillMaster(KnowledgeBase knowledge, DrillTables tables, FactorTables factors, PlanTables plans) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.factors = factors;
        this.plans = plans;
        this.reasoner = new LogicReasoner(knowledge);
        this.order = new QuestionOrder(knowledge);
        this.planReasoner = new PlanReasoner(knowledge, plans);
    }

    /** The knowledge base. */
    public KnowledgeBase knowledge() {
        return knowledge;
    }

    /** How patients are made and work is marked. */
    public DrillTables tables() {
        return tables;
    }

    /** What a plan can hold. */
    public PlanTables plans() {
        return plans;
    }

    /** What may contribute. */
    public FactorTables factors() {
        return factors;
    }

    /** A new inquiry of this patient. */
    public Inquiry begin(DrillPatient patient) {
        return new Inquiry(patient, reasoner, order, patient.start(knowledge.catalogue()));
    }

    /**
     * The most informative path.
     *
     * @param inquiry every question of it asked
     * @param triage how many of its questions serve urgency and candidates; the rest serve factors and plan
     */
    public record Walk(Inquiry inquiry, int triage) {
        /** The questions that serve factors and plan only. */
        public Set<String> care() {
            List<String> path = inquiry.path();
            return new LinkedHashSet<>(path.subList(triage, path.size()));
        }
    }

    /** Walks the best order: danger first, then what separates candidates, then factors and what a plan must know. */
    public Walk walk(DrillPatient patient) {
        Inquiry inquiry = begin(patient);
        try (Probe probe = new Probe(knowledge, inquiry.known())) {
            for (int i = 0; i < MOST && !isEmergency(inquiry); i++) {
                NextQuestions next = order.next(probe, inquiry.assessment(), inquiry.unanswered(), Set.of(), true);
                Optional<Suggestion> best = next.best();
                if (best.isEmpty()) {
                    break;
                }
                inquiry.ask(best.get().finding());
                probe.stand(inquiry.known());
            }
        }
        catchUp(inquiry);
        int triage = inquiry.steps().size();
        if (isCalm(inquiry.assessment())) {
            askFactors(inquiry);
            askPlan(inquiry);
        }
        return new Walk(inquiry, triage);
    }

    /** Once an emergency is raised there is nothing left to ask before sending. */
    private static boolean isEmergency(Inquiry inquiry) {
        return inquiry.assessment()
                .urgency()
                .filter(level -> level == Urgency.EMERGENCY)
                .isPresent();
    }

    private static boolean isCalm(Assessment assessment) {
        return assessment.screeningComplete()
                && assessment
                        .urgency()
                        .map(level -> level.compareTo(Urgency.ROUTINE_REFERRAL) <= 0)
                        .orElse(false);
    }

    /** What the order leaves out yet raises the urgency, once everything is known. */
    private void catchUp(Inquiry inquiry) {
        Assessment whole =
                reasoner.assess(inquiry.patient().id(), inquiry.patient().whole(knowledge.catalogue()));
        Optional<Urgency> needed = whole.urgency();
        if (needed.isPresent()
                && inquiry.assessment()
                        .urgency()
                        .map(level -> level.compareTo(needed.get()) < 0)
                        .orElse(true)) {
            whole.raisedFlags().stream()
                    .filter(flag -> flag.urgency().equals(needed))
                    .limit(1)
                    .flatMap(flag -> flag.highest().orElseThrow().reasons().stream())
                    .limit(1)
                    .flatMap(reason -> reason.findings().stream())
                    .flatMap(read -> knowledge.catalogue().askedBehind(read.id()).stream())
                    .filter(id ->
                            !inquiry.asked(id) && inquiry.patient().answers().containsKey(id))
                    .distinct()
                    .toList()
                    .forEach(inquiry::ask);
        }
    }

    private void askFactors(Inquiry inquiry) {
        for (FactorDefinition factor : factors.factors()) {
            if (!factor.tie().counts() || factor.ceiling().compareTo(FactorVerdict.BORDERLINE) < 0) {
                continue;
            }
            for (String finding : behind(factor)) {
                askIfOpen(inquiry, finding);
            }
        }
    }

    /** The questions a factor's verdict rests on. */
    private Set<String> behind(FactorDefinition factor) {
        Set<String> behind = new LinkedHashSet<>();
        factor.presentWhen()
                .ifPresent(when -> behind.addAll(knowledge.catalogue().askedBehind(when)));
        for (String read : factor.reads()) {
            factors.measure(read).flatMap(measure -> measure.finding()).ifPresent(behind::add);
        }
        return behind;
    }

    private void askPlan(Inquiry inquiry) {
        for (int round = 0; round < PLAN_ROUNDS; round++) {
            Set<String> open = new LinkedHashSet<>();
            if (plan(inquiry.patient(), inquiry.known()) instanceof Plan.Active active) {
                active.heldBack().stream()
                        .filter(held -> held.reason() == Plan.Reason.NOT_ASKED)
                        .flatMap(held -> held.about().stream())
                        .flatMap(id -> knowledge.catalogue().askedBehind(id).stream())
                        .filter(id -> !inquiry.asked(id))
                        .forEach(open::add);
            }
            if (open.isEmpty()) {
                return;
            }
            open.forEach(id -> askIfOpen(inquiry, id));
        }
    }

    private void askIfOpen(Inquiry inquiry, String finding) {
        Observations known = inquiry.known();
        boolean here = knowledge
                .catalogue()
                .finding(finding)
                .map(definition -> definition
                        .onlyIf()
                        .map(gate -> gate.in(known) != Truth.FALSE)
                        .orElse(true))
                .orElse(false);
        if (here
                && known.recorded(finding).isEmpty()
                && inquiry.heldBack(finding).isEmpty()) {
            inquiry.ask(finding);
        }
    }

    /** What the rules make of these answers of this patient. */
    public ModelAnswer model(DrillPatient patient, Observations known) {
        return new ModelAnswer(reasoner.assess(patient.id(), known), verdicts(known), plan(patient, known));
    }

    private List<FactorResult> verdicts(Observations known) {
        return FactorVerdicts.judge(factors, known, List.of(), Optional.empty());
    }

    private Plan plan(DrillPatient patient, Observations known) {
        List<FactorFinding> seen = verdicts(known).stream()
                .map(result -> new FactorFinding(result.id(), result.verdict().word()))
                .toList();
        return planReasoner.plan(new Reasoner.About(patient.id(), LocalDate.EPOCH, Optional.empty()), known, seen);
    }

    /** The answers of both inquiries together. */
    public Observations union(Inquiry one, Inquiry other) {
        Observations all = one.known();
        for (Map.Entry<String, org.gerdy.engine.casefile.Recorded> entry :
                new ArrayList<>(other.known().recorded().entrySet())) {
            all = all.recorded(entry.getKey()).isPresent() ? all : all.with(entry.getKey(), entry.getValue());
        }
        return all;
    }

    /** What an inquiry that knows this much would rightly commit to. */
    public Commitment conclude(DrillPatient patient, Observations known) {
        ModelAnswer model = model(patient, known);
        int most = (int) tables.settings().value("most-candidates");
        Map<String, Double> confidences = new java.util.LinkedHashMap<>();
        model.assessment().candidates().stream()
                .limit(most)
                .forEach(candidate -> confidences.put(candidate.condition(), candidate.share()));
        int items = (int) tables.settings().value("plan-items");
        Set<String> settles = new LinkedHashSet<>();
        model.assessment().candidates().stream().limit(1).forEach(candidate -> settles.addAll(candidate.settle()));
        return new Commitment(
                model.urgency(),
                confidences,
                new LinkedHashSet<>(model.present()),
                new LinkedHashSet<>(model.items().stream().limit(items).toList()),
                settles);
    }
}
