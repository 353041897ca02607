/** What rules see and conclude: known findings, raised red flags, evidence, the chosen population, referrals. */
@NullMarked
package org.gerdy.engine.fact;

import org.jspecify.annotations.NullMarked;
