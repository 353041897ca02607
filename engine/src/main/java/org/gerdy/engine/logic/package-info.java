/** Three-valued logic and the small expression language of gates, computed findings and scores. */
@NullMarked
package org.gerdy.engine.logic;

import org.jspecify.annotations.NullMarked;
