/** Plans and schedules over invented tables of no body region. */
@NullMarked
package org.gerdy.engine.plan;

import org.jspecify.annotations.NullMarked;
