package org.gerdy.engine.reasoning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.ReferralResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.fact.Candidate;
import org.gerdy.engine.fact.Population;
import org.gerdy.engine.fact.RedFlag;
import org.gerdy.engine.fact.Referral;
import org.gerdy.engine.fact.Weighed;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.ReferralRow;
import org.gerdy.engine.vocabulary.Urgency;

/** Turns observations into an assessment. One instance serves many threads; each call has its own rule session. */
public final class Reasoner {
    private final KnowledgeBase knowledge;
    private final Reasons reasons;
    private final Screening screening;
    private final CandidateRanking ranking;
    private final Instruments instruments;
    private final ClashFinder clashes;

    /** A reasoner over this knowledge base. */
    public Reasoner(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.reasons = new Reasons(knowledge);
        this.screening = new Screening(knowledge, reasons);
        this.ranking = new CandidateRanking(knowledge);
        this.instruments = new Instruments(knowledge);
        this.clashes = new ClashFinder(knowledge.terms());
    }

    /** What an assessment is about, beside the observations. */
    public record About(String caseId, LocalDate visit, Optional<CaseFile.Decision> decision) {}

    /** Assesses one visit of a case. */
    public Assessment assess(CaseFile caseFile, Visit visit) {
        try (RuleSession session = new RuleSession(knowledge)) {
            return assess(
                    session,
                    new About(caseFile.id(), visit.date(), visit.decision()),
                    Observations.of(knowledge.catalogue(), caseFile, visit));
        }
    }

    /** Opens a living session on these observations. */
    public Consultation consult(About about, Observations observations) {
        return new Consultation(knowledge, this, about, observations);
    }

    Assessment assess(Inference session, About about, Observations observations) {
        session.observe(observations);
        List<Flag> flags = screening.decide(observations, session.conclusions(RedFlag.class));
        Population population = population(session.conclusions(Population.class));
        List<CandidateResult> candidates =
                ranking.rank(observations, population.id(), session.conclusions(Weighed.class), flags);
        session.conclude(facts(candidates));
        List<ReferralResult> referrals = referrals(session.conclusions(Referral.class), observations);
        boolean complete = flags.stream().noneMatch(Flag::open);
        Optional<Urgency> highest =
                flags.stream().flatMap(flag -> flag.urgency().stream()).max(Urgency::compareTo);
        Optional<Urgency> urgency = highest.or(() -> complete ? Optional.of(Urgency.MANAGE_HERE) : Optional.empty());
        Optional<Urgency> couldBecome = flags.stream()
                .flatMap(flag -> flag.couldBecome().stream())
                .max(Urgency::compareTo)
                .filter(possible ->
                        urgency.map(now -> possible.compareTo(now) > 0).orElse(true));
        return new Assessment(
                about.caseId(),
                about.visit(),
                observations.side(),
                knowledge.identity(),
                urgency,
                couldBecome,
                flags,
                new Assessment.ChosenPopulation(
                        population.id(),
                        knowledge.priors().population(population.id()).label(),
                        reasons.of(population.rule(), observations)),
                candidates,
                referrals,
                instruments.scores(observations, flags),
                instruments.decisions(observations),
                clashes.clashes(observations).stream()
                        .map(ClashFinder.Found::message)
                        .sorted()
                        .toList(),
                about.decision(),
                knowledge.cautions());
    }

    private Population population(Collection<Population> chosen) {
        return chosen.stream()
                .min(Comparator.comparingInt(Population::rank).thenComparing(Population::id))
                .orElseThrow(() -> new KnowledgeException(
                        "No rule chose a population; a knowledge base needs one for a patient nothing is known of."));
    }

    private static List<Candidate> facts(List<CandidateResult> candidates) {
        return candidates.stream()
                .filter(candidate -> candidate.standing() != CandidateResult.Standing.UNLIKELY)
                .map(candidate -> new Candidate(
                        candidate.condition(),
                        candidate.standing().word(),
                        candidate.disposition(),
                        candidate.mustNotMiss()))
                .toList();
    }

    private List<ReferralResult> referrals(Collection<Referral> met, Observations observations) {
        Map<String, List<Referral>> grouped = new LinkedHashMap<>();
        met.stream()
                .sorted(Comparator.comparing(Referral::id).thenComparing(Referral::about))
                .forEach(referral -> grouped.computeIfAbsent(
                                referral.id() + "/" + referral.about(), ignored -> new ArrayList<>())
                        .add(referral));
        List<ReferralResult> results = new ArrayList<>();
        for (List<Referral> same : grouped.values()) {
            Referral first = same.get(0);
            ReferralRow row = knowledge.referrals().get(first.id());
            if (row == null) {
                throw new KnowledgeException("referrals.csv has no row '" + first.id() + "'.");
            }
            String about = Optional.ofNullable(knowledge.conditions().get(first.about()))
                    .map(Condition::name)
                    .orElse(first.about());
            results.add(new ReferralResult(
                    row.id(),
                    row.label(),
                    first.about(),
                    row.urgency(),
                    row.within(),
                    row.action().replace("{condition}", about),
                    same.stream()
                            .map(referral -> reasons.of(referral.rule(), observations))
                            .toList()));
        }
        results.sort(Comparator.comparing(ReferralResult::urgency).reversed().thenComparing(ReferralResult::id));
        return List.copyOf(results);
    }

    /** Whether a flag guards a condition and is not cleared. */
    static boolean guarded(Condition condition, List<Flag> flags) {
        return flags.stream()
                .anyMatch(flag -> condition.flags().contains(flag.id()) && flag.state() != FlagState.CLEARED);
    }
}
