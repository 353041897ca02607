package org.gerdy.engine.measure;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;

/**
 * One thing that may contribute to a complaint, and how its verdict is reached. Cut-offs are crossed only when exceeded:
 * a value exactly on one takes the less alarming side.
 *
 * @param id stable name
 * @param label as shown
 * @param domain grouping
 * @param method how the verdict is reached
 * @param reads measures, findings or load quantities, in order of preference
 * @param direction which way counts
 * @param unit unit of value and cut-offs
 * @param borderlineBeyond beyond this it is borderline
 * @param contributesBeyond beyond this, and beyond the error, it contributes
 * @param error row of the measurement error that holds here
 * @param norms rows to hold the value against, in order of preference
 * @param presentWhen expression over findings that says it is there
 * @param words words of an observation that say it is there
 * @param ceiling the highest verdict the literature allows
 * @param tie how the factor is tied to the complaint
 * @param association the same in plain words
 * @param belief the popular belief it contradicts, may be empty
 * @param advice what to do next with a finding, may be empty
 * @param sources bibliography keys
 * @param basis where the cut-offs come from
 * @param note why these were chosen
 */
public record FactorDefinition(
        String id,
        String label,
        String domain,
        Method method,
        List<String> reads,
        Direction direction,
        String unit,
        OptionalDouble borderlineBeyond,
        OptionalDouble contributesBeyond,
        Optional<String> error,
        List<String> norms,
        Optional<Expression> presentWhen,
        List<String> words,
        FactorVerdict ceiling,
        Tie tie,
        String association,
        String belief,
        String advice,
        List<String> sources,
        Basis basis,
        String note) {

    /** How a verdict is reached. */
    public enum Method {
        /** Affected side over the other, in percent. */
        SYMMETRY,
        /** Affected side minus the other. */
        SIDE_DIFFERENCE,
        /** The value against a cut-off. */
        CUT_OFF,
        /** The class of a value, described, and its side difference. */
        DESCRIBED,
        /** A word of a list of observations. */
        CHOICE,
        /** An expression over findings. */
        FINDING,
        /** Lengths of both sides by several methods. */
        PAIRED_LENGTH,
        /** Observations that are taught to go together on one side. */
        PATTERN,
        /** A quantity of the training load. */
        LOAD,
        /** Known from studies, not measured here. */
        LABORATORY;

        /** The method written in a table. */
        public static Method of(String text) {
            return valueOf(text.toUpperCase(Locale.ROOT).replace('-', '_'));
        }
    }

    /** Which way a value counts. */
    public enum Direction {
        LOWER,
        HIGHER,
        EITHER;

        /** The direction written in a table. */
        public static Direction of(String text) {
            return valueOf(text.toUpperCase(Locale.ROOT));
        }

        /** How far the difference goes the way that counts; negative the other way. */
        public double extent(double difference) {
            return switch (this) {
                case LOWER -> -difference;
                case HIGHER -> difference;
                case EITHER -> Math.abs(difference);
            };
        }
    }

    /** How the literature ties a factor to the complaint, strongest first. */
    public enum Tie {
        /** Found before the complaint began. */
        PROSPECTIVE,
        /** Found beside the complaint; may be its result. */
        CROSS_SECTIONAL,
        /** Studies of the complaint disagree. */
        CONFLICTING,
        /** Only models or healthy people. */
        MECHANISM_ONLY,
        /** Only other or any injuries. */
        OTHER_INJURIES_ONLY,
        /** Nobody studied it. */
        NOT_STUDIED,
        /** Studied and not associated. */
        NONE;

        /** The tie written in a table. */
        public static Tie of(String text) {
            return valueOf(text.toUpperCase(Locale.ROOT).replace('-', '_'));
        }

        /** As written in a table. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        /** Whether any study gives a reason to count the factor at all. */
        public boolean counts() {
            return this != NOT_STUDIED && this != NONE;
        }
    }
}
