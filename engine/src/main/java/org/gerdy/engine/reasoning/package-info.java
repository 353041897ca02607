/** From observations to conclusions: the rule session, the screening, the differential. */
@NullMarked
package org.gerdy.engine.reasoning;

import org.jspecify.annotations.NullMarked;
