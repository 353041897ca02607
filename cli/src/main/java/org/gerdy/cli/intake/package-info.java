/** The intake at the couch: one question a screen, one key an answer, each answer on the disk before the next question. */
@NullMarked
package org.gerdy.cli.intake;

import org.jspecify.annotations.NullMarked;
