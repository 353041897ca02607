package org.gerdy.engine.casefile;

import java.util.List;
import java.util.stream.Collectors;

/** Something the user can mend: a file that is wrong, a path that is not there. Carries every problem found, in order. */
public final class MendableException extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    /** All that is wrong; at least one. */
    public MendableException(List<Problem> problems) {
        super(problems.stream().map(Problem::toString).collect(Collectors.joining("\n")));
        this.problems = problems.stream().sorted().toList();
    }

    /** One thing wrong with a whole file. */
    public MendableException(String file, String message) {
        this(List.of(new Problem(file, 0, 0, message)));
    }

    /** Every problem, by line and column. */
    public List<Problem> problems() {
        return problems;
    }
}
