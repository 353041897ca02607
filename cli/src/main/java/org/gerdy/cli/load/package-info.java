/** Training load on screen: tables and charts of plain text. Formats and decides nothing. */
@NullMarked
package org.gerdy.cli.load;

import org.jspecify.annotations.NullMarked;
