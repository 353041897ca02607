/** The intake over the shipped knowledge base: its order, its living session, its files. */
@NullMarked
package org.gerdy.rules.intake;

import org.jspecify.annotations.NullMarked;
