package org.gerdy.engine.fact;

/** Anything a rule concludes. It names the rule, so that the reason goes wherever the conclusion goes. */
public sealed interface Conclusion permits RedFlag, Weighed, Population, Referral, StageSign, PlanChoice {
    /** The id of the rule that concluded it. */
    String rule();
}
