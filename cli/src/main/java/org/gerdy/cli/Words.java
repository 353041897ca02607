package org.gerdy.cli;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** How findings, flags, numbers are said on screen. */
public final class Words {
    /** Said where an emergency is raised and questions are open. */
    public static final String ACT_FIRST = "Act on the emergency first; no open question is a reason to wait.";

    /** How many findings are told for a candidate, and how many against. */
    private static final int WEIGHTS = 4;

    private final KnowledgeBase knowledge;

    /** Words over this knowledge base. */
    public Words(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
    }

    /** A finding as its question, or a computed one as its label. */
    public String finding(String id) {
        return knowledge
                .catalogue()
                .finding(id)
                .map(FindingDefinition::question)
                .or(() -> knowledge.catalogue().computed(id).map(ComputedFinding::label))
                .orElse(id);
    }

    /** An id as words: short, and still the id to anybody who knows it. */
    public static String plain(String id) {
        return id.replace('-', ' ');
    }

    /** The label of a flag: that of its first row. */
    public String flag(String id) {
        return Optional.ofNullable(knowledge.rowsByFlag().get(id))
                .map(rows -> rows.get(0))
                .map(RedFlagRow::label)
                .orElse(id);
    }

    /** Whether one of these flags stands guard over the candidate. */
    public boolean standsGuard(CandidateResult candidate, List<Flag> flags) {
        List<String> guards = knowledge.condition(candidate.condition()).flags();
        return flags.stream().anyMatch(flag -> guards.contains(flag.id()));
    }

    /** Dangerous candidates among the rest, those not shown, that no raised flag guards and that are not yet unlikely. */
    public List<String> notToBeMissed(Stream<CandidateResult> rest, Assessment assessment) {
        return rest.filter(candidate -> candidate.mustNotMiss() && candidate.standing() != Standing.UNLIKELY)
                .filter(candidate -> !standsGuard(candidate, assessment.raisedFlags()))
                .map(CandidateResult::name)
                .toList();
    }

    /** The few heaviest findings that count, each with its ratio and, unless it is our own judgement, its basis. */
    public static String weights(List<CandidateResult.Weight> weights) {
        return weights.stream()
                .filter(CandidateResult.Weight::counted)
                .limit(WEIGHTS)
                .map(weight -> plain(weight.finding()) + (weight.present() ? "" : " absent") + " (LR "
                        + ratio(weight.ratio())
                        + (weight.basis() == Basis.JUDGEMENT
                                ? ""
                                : ", " + weight.basis().word()) + ")")
                .collect(Collectors.joining("; "));
    }

    /** A share as a percentage without decimals, and "<1%" below half of one. */
    public static String percent(double share) {
        if (share < 0.005) {
            return "<1%";
        }
        return String.format(Locale.ROOT, "%.0f%%", share * 100);
    }

    /** A likelihood ratio with two figures. */
    public static String ratio(double ratio) {
        return ratio >= 10
                ? String.format(Locale.ROOT, "%.0f", ratio)
                : ratio >= 1 ? String.format(Locale.ROOT, "%.1f", ratio) : String.format(Locale.ROOT, "%.2f", ratio);
    }

    /** A number without needless zeros. */
    public static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }

    /** A range with both ends included; an open end is said in words. */
    static String range(double low, double high) {
        if (Double.isInfinite(low)) {
            return "up to " + number(high);
        }
        return Double.isInfinite(high) ? number(low) + " or more" : number(low) + " to " + number(high);
    }
}
