/** The catalogue: what can be asked, seen or measured, in which unit, and when it makes sense to ask. */
@NullMarked
package org.gerdy.engine.vocabulary;

import org.jspecify.annotations.NullMarked;
