/** The knowledge base for pain on the outside of the knee, ready to use. Every clinical fact is in the resources beside this package. */
@NullMarked
package org.gerdy.rules;

import org.jspecify.annotations.NullMarked;
