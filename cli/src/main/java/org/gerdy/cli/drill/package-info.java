/** Practice at the command line: a case worked blind, its mark, a learner's report, exams for teachers. */
@NullMarked
package org.gerdy.cli.drill;

import org.jspecify.annotations.NullMarked;
