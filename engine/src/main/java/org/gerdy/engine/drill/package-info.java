/** Practice: made patients, a blind inquiry, a model answer, a fair mark with its reasons, and what to repeat when. */
@NullMarked
package org.gerdy.engine.drill;

import org.jspecify.annotations.NullMarked;
