package org.gerdy.engine.assessment;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * What the knowledge base makes of one visit. Immutable; the same case and knowledge base give the same assessment.
 *
 * @param caseId the case
 * @param visit the day of the visit
 * @param side the painful side
 * @param knowledge which knowledge base
 * @param urgency the highest raised level; manage-here only when the screen is complete; empty otherwise
 * @param couldBecome the highest level an open flag could still give
 * @param flags every flag, in table order
 * @param population which priors were used, and the rule that chose them
 * @param candidates by share, largest first
 * @param factors contributing factors with their verdicts, in table order
 * @param load training load up to the visit, if the case has a record
 * @param referrals thresholds met
 * @param scores published scores worth showing
 * @param decisionRules published decision rules
 * @param clashes answers that cannot stand together, one sentence each
 * @param decision the clinician's own decision, kept and shown beside this
 * @param cautions printed with every result
 */
public record Assessment(
        String caseId,
        LocalDate visit,
        Side side,
        KnowledgeBase.Identity knowledge,
        Optional<Urgency> urgency,
        Optional<Urgency> couldBecome,
        List<Flag> flags,
        ChosenPopulation population,
        List<CandidateResult> candidates,
        List<FactorResult> factors,
        Optional<LoadReport> load,
        List<ReferralResult> referrals,
        List<ScoreResult> scores,
        List<DecisionResult> decisionRules,
        List<String> clashes,
        Optional<CaseFile.Decision> decision,
        List<String> cautions) {

    /** The population whose priors were used. */
    public record ChosenPopulation(String id, String label, Reason reason) {}

    /** Whether no flag is open. */
    public boolean screeningComplete() {
        return flags.stream().noneMatch(Flag::open);
    }

    /** The raised flags, highest urgency first, then table order. */
    public List<Flag> raisedFlags() {
        return flags.stream()
                .filter(flag -> flag.state() == FlagState.RAISED)
                .sorted((a, b) ->
                        b.urgency().orElseThrow().compareTo(a.urgency().orElseThrow()))
                .toList();
    }

    /** The flags something is still unasked for, raised ones included. */
    public List<Flag> openFlags() {
        return flags.stream().filter(Flag::open).toList();
    }

    /** The candidates of one standing. */
    public List<CandidateResult> candidates(CandidateResult.Standing standing) {
        return candidates.stream()
                .filter(candidate -> candidate.standing() == standing)
                .toList();
    }

    /** The contributing factors of one verdict. */
    public List<FactorResult> factors(FactorVerdict verdict) {
        return factors.stream().filter(factor -> factor.verdict() == verdict).toList();
    }

    /** The flag of this id. Throws {@link IllegalArgumentException} for an unknown one. */
    public Flag flag(String id) {
        return flags.stream()
                .filter(flag -> flag.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("There is no red flag '" + id + "'."));
    }
}
