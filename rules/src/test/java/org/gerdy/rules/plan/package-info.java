/** Holds plans, schedules and reviews of the shipped knowledge base to their sources and to what they must never do. */
@NullMarked
package org.gerdy.rules.plan;

import org.jspecify.annotations.NullMarked;
