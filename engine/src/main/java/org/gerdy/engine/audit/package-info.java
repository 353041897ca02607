/** Holding a knowledge base to its cases: what differs, what is covered, what a change would do, what nobody guards. */
@NullMarked
package org.gerdy.engine.audit;

import org.jspecify.annotations.NullMarked;
