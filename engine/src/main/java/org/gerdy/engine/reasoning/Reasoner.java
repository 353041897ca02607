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
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.ReferralResult;
import org.gerdy.engine.assessment.ScoreResult;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.RunNotes;
import org.gerdy.engine.casefile.Side;
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
import org.gerdy.engine.load.LoadHistory;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.measure.Measured;
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

    /**
     * What an assessment is about, beside the observations.
     *
     * @param caseId the case
     * @param visit the day of the visit
     * @param decision the clinician's own decision
     * @param measures measures by visit, oldest first, this visit last
     * @param history the training record up to this visit, if there is one
     */
    public record About(
            String caseId,
            LocalDate visit,
            Optional<CaseFile.Decision> decision,
            List<Map<String, Measured>> measures,
            Optional<LoadHistory> history) {
        /** A visit without measures and training record. */
        public About(String caseId, LocalDate visit, Optional<CaseFile.Decision> decision) {
            this(caseId, visit, decision, List.of(), Optional.empty());
        }

        /** What was measured at this visit. */
        Map<String, Measured> taken() {
            return measures.isEmpty() ? Map.of() : measures.get(measures.size() - 1);
        }

        /** This visit of the case, with the measures and runs of those before it. */
        public static About of(KnowledgeBase knowledge, CaseFile caseFile, Visit visit) {
            List<Visit> soFar = caseFile.visits().stream()
                    .filter(one -> !one.date().isAfter(visit.date()))
                    .toList();
            List<RunNotes> runs =
                    soFar.stream().flatMap(one -> one.runs().stream()).toList();
            return new About(
                    caseFile.id(),
                    visit.date(),
                    visit.decision(),
                    soFar.stream().map(Visit::measures).toList(),
                    runs.isEmpty() ? Optional.empty() : LoadHistory.of(caseFile.id(), runs, knowledge.loadSettings()));
        }
    }

    /** Assesses one visit of a case. */
    public Assessment assess(CaseFile caseFile, Visit visit) {
        About about = About.of(knowledge, caseFile, visit);
        // The tables of factors are read while the rules may still be starting on a thread of their own.
        FactorTables ignored = knowledge.factors();
        try (RuleSession session = new RuleSession(knowledge)) {
            return assess(session, about, Observations.of(knowledge.terms(), caseFile, visit));
        }
    }

    /** Judges the contributing factors and nothing else. */
    public List<FactorResult> factors(About about, Observations observations) {
        return FactorVerdicts.judge(knowledge.factors(), observations, about.measures(), load(about, observations));
    }

    /** Opens a living session on these observations. */
    public Consultation consult(About about, Observations observations) {
        return new Consultation(knowledge, this, about, observations);
    }

    Assessment assess(Inference session, About about, Observations observations) {
        session.observe(observations);
        List<Flag> flags = screening.decide(observations, session.conclusions(RedFlag.class));
        Population population = population(session.conclusions(Population.class));
        session.weigh(observations);
        List<CandidateResult> candidates =
                ranking.rank(observations, population.id(), session.conclusions(Weighed.class), flags);
        session.conclude(facts(candidates));
        List<ReferralResult> referrals = referrals(session.conclusions(Referral.class), observations);
        Optional<LoadReport> load = load(about, observations);
        return assessment(
                about,
                observations,
                flags,
                population,
                candidates,
                FactorVerdicts.judge(knowledge.factors(), observations, about.measures(), load),
                load,
                referrals,
                instruments.scores(observations, flags),
                instruments.decisions(observations));
    }

    /** The red flags, the urgency and the population alone, for who needs no candidates. */
    Assessment screen(Inference session, About about, Observations observations) {
        session.observe(observations);
        List<Flag> flags = screening.decide(observations, session.conclusions(RedFlag.class));
        Population population = population(session.conclusions(Population.class));
        return assessment(
                about,
                observations,
                flags,
                population,
                List.of(),
                List.of(),
                Optional.empty(),
                List.of(),
                List.of(),
                List.of());
    }

    private Assessment assessment(
            About about,
            Observations observations,
            List<Flag> flags,
            Population population,
            List<CandidateResult> candidates,
            List<FactorResult> factors,
            Optional<LoadReport> load,
            List<ReferralResult> referrals,
            List<ScoreResult> scores,
            List<DecisionResult> decisionRules) {
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
                factors,
                load,
                referrals,
                scores,
                decisionRules,
                clashes.clashes(observations, about.taken()).stream()
                        .map(ClashFinder.Found::message)
                        .sorted()
                        .toList(),
                about.decision(),
                knowledge.cautions());
    }

    private Optional<LoadReport> load(About about, Observations observations) {
        return about.history().map(history -> {
            String finding = knowledge.factors().settings().firstPainfulFinding();
            Optional<LocalDate> firstPainful = observations
                    .recorded(finding)
                    .flatMap(recorded -> recorded.on(Side.LEFT))
                    .filter(Answer.Day.class::isInstance)
                    .map(answer -> ((Answer.Day) answer).date());
            return LoadReport.of(history, about.visit(), firstPainful, knowledge.loadSettings());
        });
    }

    private Population population(Collection<Population> chosen) {
        return chosen.stream()
                .min(Comparator.comparingInt(Population::rank).thenComparing(Population::id))
                .orElseThrow(() -> new KnowledgeException(
                        "No rule chose a population; a knowledge base needs one for a patient nothing is known of."));
    }

    static List<Candidate> facts(List<CandidateResult> candidates) {
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
