/** What to ask next, and what would change if an answer did. */
@NullMarked
package org.gerdy.engine.intake;

import org.jspecify.annotations.NullMarked;
