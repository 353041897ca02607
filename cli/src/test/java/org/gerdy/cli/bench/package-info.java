/** Benchmarks beside two yardsticks, and those yardsticks. The build compiles them; a profile of its own runs them. */
package org.gerdy.cli.bench;
