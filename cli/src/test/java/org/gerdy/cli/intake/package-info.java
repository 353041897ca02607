/** The intake driven as its users drive it: by keys, by lines, through a terminal, and cut off at any moment. */
@NullMarked
package org.gerdy.cli.intake;

import org.jspecify.annotations.NullMarked;
