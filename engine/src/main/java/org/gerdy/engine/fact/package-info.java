/** What rules see and conclude: known findings, red flags, evidence, the chosen population, referrals, stage and plan items. */
@NullMarked
package org.gerdy.engine.fact;

import org.jspecify.annotations.NullMarked;
