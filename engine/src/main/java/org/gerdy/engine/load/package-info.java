/** Training load from what people really have: a diary, or files of a watch. Reads, reckons, and says what is missing. */
@NullMarked
package org.gerdy.engine.load;

import org.jspecify.annotations.NullMarked;
