/** Holds the commands to their promises. */
package org.gerdy.cli;
