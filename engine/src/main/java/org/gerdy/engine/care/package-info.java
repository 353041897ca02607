/** What follows triage, put together for one visit: the plan, its dated programmes, the next look, the review of scores. */
@NullMarked
package org.gerdy.engine.care;

import org.jspecify.annotations.NullMarked;
