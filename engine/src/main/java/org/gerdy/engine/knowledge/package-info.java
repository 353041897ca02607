/** A knowledge base: rules, tables, bibliography, with a version and a digest over its content. */
@NullMarked
package org.gerdy.engine.knowledge;

import org.jspecify.annotations.NullMarked;
