/** Reviews over invented scores. */
@NullMarked
package org.gerdy.engine.review;

import org.jspecify.annotations.NullMarked;
