/** Tests of the factor tables and of the verdicts drawn from them. */
@NullMarked
package org.gerdy.rules.factors;

import org.jspecify.annotations.NullMarked;
