/** The engine: vocabulary, case files, reasoning and explanation for any knowledge base. Knows no body region. */
@NullMarked
package org.gerdy.engine;

import org.jspecify.annotations.NullMarked;
