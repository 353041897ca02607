/**
 * Scores over visits: what changed beyond measurement error, what mattered, when a course has stalled and when somebody
 * else should look. Thresholds, populations and time points come from tables; nothing is read between them.
 */
@NullMarked
package org.gerdy.engine.review;

import org.jspecify.annotations.NullMarked;
