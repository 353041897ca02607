/** What an audit found, as text, JSON, JUnit XML and a page to print. */
@NullMarked
package org.gerdy.cli.audit;

import org.jspecify.annotations.NullMarked;
