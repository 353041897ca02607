package org.gerdy.cli.bench;

import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Truth;

/** How the hand-written rows look answers up. */
class HandWrittenAnswers {
    private final Observations answers;

    HandWrittenAnswers(Observations answers) {
        this.answers = answers;
    }

    boolean present(String finding) {
        return answers.is(finding, "present") == Truth.TRUE;
    }

    boolean notPresent(String finding) {
        return answers.is(finding, "present") == Truth.FALSE;
    }

    boolean absent(String finding) {
        return answers.is(finding, "absent") == Truth.TRUE;
    }

    boolean notAbsent(String finding) {
        return answers.is(finding, "absent") == Truth.FALSE;
    }

    boolean chose(String finding, String choice) {
        return answers.is(finding, choice) == Truth.TRUE;
    }

    boolean choseOther(String finding, String choice) {
        return answers.is(finding, choice) == Truth.FALSE;
    }

    boolean atLeast(String finding, double cutOff) {
        return answers.compare(finding, Comparison.AT_LEAST, cutOff) == Truth.TRUE;
    }

    boolean atMost(String finding, double cutOff) {
        return answers.compare(finding, Comparison.AT_MOST, cutOff) == Truth.TRUE;
    }

    boolean above(String finding, double cutOff) {
        return answers.compare(finding, Comparison.ABOVE, cutOff) == Truth.TRUE;
    }

    boolean below(String finding, double cutOff) {
        return answers.compare(finding, Comparison.BELOW, cutOff) == Truth.TRUE;
    }

    boolean sides(String finding, Comparison comparison, double cutOff, Truth truth) {
        return answers.compareSides(finding, comparison, cutOff) == truth;
    }

    boolean ratio(String finding, Comparison comparison, double factor, String other, Truth truth) {
        return answers.compareTo(finding, comparison, factor, other) == truth;
    }

    static int count(boolean... conditions) {
        int held = 0;
        for (boolean condition : conditions) {
            held += condition ? 1 : 0;
        }
        return held;
    }
}
