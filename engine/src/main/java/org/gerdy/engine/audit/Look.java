package org.gerdy.engine.audit;

import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.ReferralResult;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.measure.FactorVerdict;
import org.jspecify.annotations.Nullable;

/**
 * What a quick look at one case shows, before it is assessed under a slip. Each part is worked out when first asked for
 * and kept. For one thread.
 */
public final class Look {
    private final Observations observations;
    private final Supplier<Assessment> assessing;
    private @Nullable Assessment assessment;
    private @Nullable Map<String, FlagState> rows;
    private @Nullable Set<String> spoken;

    /** A look at what is known and at what is concluded from it without the slip. */
    Look(Observations observations, Supplier<Assessment> assessing) {
        this.observations = observations;
        this.assessing = assessing;
    }

    Observations observations() {
        return observations;
    }

    Assessment assessment() {
        if (assessment == null) {
            assessment = assessing.get();
        }
        return assessment;
    }

    /** How a red flag row stands. */
    FlagState row(String id) {
        if (rows == null) {
            rows = assessment().flags().stream()
                    .flatMap(flag -> flag.rows().stream())
                    .collect(Collectors.toMap(Flag.Row::id, Flag.Row::state));
        }
        FlagState state = rows.get(id);
        if (state == null) {
            throw new IllegalArgumentException("There is no red flag row '" + id + "'.");
        }
        return state;
    }

    /** Whether a finding speaks for or against a condition. */
    boolean speaks(String finding, String condition) {
        if (spoken == null) {
            spoken = Tells.weighed(assessment());
        }
        return spoken.contains(condition + " " + finding);
    }

    /** Whether a contributing factor has a verdict. */
    boolean measured(String factor) {
        return assessment().factors().stream()
                .anyMatch(one -> one.id().equals(factor) && one.verdict() != FactorVerdict.NOT_MEASURED);
    }

    /** Whether a referral threshold is met. */
    boolean meets(String referral) {
        return assessment().referrals().stream().map(ReferralResult::id).anyMatch(referral::equals);
    }
}
