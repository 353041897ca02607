/** Case files: reading with positions, checking, and the case they hold. Readers do not reason. */
@NullMarked
package org.gerdy.engine.casefile;

import org.jspecify.annotations.NullMarked;
