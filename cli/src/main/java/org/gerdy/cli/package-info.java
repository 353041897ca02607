/** The command line. Commands read, hand to the engine and print; they decide nothing. */
@NullMarked
package org.gerdy.cli;

import org.jspecify.annotations.NullMarked;
