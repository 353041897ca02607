/** Tests of the commands, run as the program runs them. */
@NullMarked
package org.gerdy.cli;

import org.jspecify.annotations.NullMarked;
