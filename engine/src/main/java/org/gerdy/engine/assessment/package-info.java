/** The immutable result of reasoning over one visit, and its JSON form. */
@NullMarked
package org.gerdy.engine.assessment;

import org.jspecify.annotations.NullMarked;
