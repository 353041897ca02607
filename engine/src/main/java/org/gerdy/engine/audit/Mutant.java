package org.gerdy.engine.audit;

import java.util.List;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.plan.PlanTables;

/**
 * A knowledge base with one slip in it.
 *
 * @param group what the slip is about
 * @param place the rule or table row
 * @param change the slip in words
 * @param variant the knowledge base with the slip
 * @param plan the plan tables with the slip
 * @param mayDiffer whether a case could come out differently; a quick look before assessing it
 * @param conditions the conditions whose answers could tell the slip
 * @param needs findings that matter by being answered at all
 */
public record Mutant(
        Group group,
        String place,
        String change,
        Supplier<KnowledgeBase> variant,
        UnaryOperator<PlanTables> plan,
        Predicate<Look> mayDiffer,
        List<Expression> conditions,
        List<String> needs) {

    /** A slip that leaves the plan tables as they are. */
    Mutant(
            Group group,
            String place,
            String change,
            Supplier<KnowledgeBase> variant,
            Predicate<Look> mayDiffer,
            List<Expression> conditions,
            List<String> needs) {
        this(group, place, change, variant, UnaryOperator.identity(), mayDiffer, conditions, needs);
    }

    /** What a slip is about. */
    public enum Group {
        /** A rule, row or computed finding behind a red flag. */
        RED_FLAGS,
        /** A referral threshold. */
        REFERRALS,
        /** What orders the candidates: evidence, populations, guards, settings, computed findings read by no flag. */
        CANDIDATES,
        /** A published score or decision rule. */
        INSTRUMENTS,
        /** How a contributing factor is judged. */
        FACTORS,
        /** A rule of the plan, what forbids an item, or a computed finding that only these read. */
        PLAN,
        /** When a question makes sense to ask. */
        QUESTIONS;

        /** The words on screen. */
        public String word() {
            return switch (this) {
                case RED_FLAGS -> "red flags";
                case REFERRALS -> "referral thresholds";
                case CANDIDATES -> "order of candidates";
                case INSTRUMENTS -> "scores and decision rules";
                case FACTORS -> "contributing factors";
                case PLAN -> "plan";
                case QUESTIONS -> "when to ask";
            };
        }
    }
}
