/** The commands as a user runs them. */
package org.gerdy.cli;
