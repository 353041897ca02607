/** Measuring: raw readings to numbers that mean something, each beside its norm and its error. Pure functions. */
@NullMarked
package org.gerdy.engine.measure;

import org.jspecify.annotations.NullMarked;
