package org.gerdy.engine.intake;

import java.util.List;
import org.gerdy.engine.assessment.Outlook;
import org.gerdy.engine.casefile.Answer;

/**
 * One question worth asking, and why it ranks where it does.
 *
 * @param finding the question
 * @param stage which part of the intake it belongs to
 * @param flags open red flags that hang on it
 * @param note why the order table puts it here; empty outside the table
 * @param possible its answers with what would follow from each; empty where the table alone decides
 * @param urgencyChange expected steps on the urgency ladder the answer would move
 * @param closing expected part of the open flags the answer would close, 0 to 1
 * @param candidateChange expected movement of the candidates, 0 to 1
 * @param seconds what asking costs, equipment and provoked pain counted
 * @param value expected change a minute, in steps of the urgency ladder
 */
public record Suggestion(
        String finding,
        Stage stage,
        List<String> flags,
        String note,
        List<Possible> possible,
        double urgencyChange,
        double closing,
        double candidateChange,
        double seconds,
        double value) {

    /** Which part of the intake a question belongs to. */
    public enum Stage {
        /** Danger question at its place in the order table. */
        DANGER,
        /** A question some open flag still needs. */
        OPEN_FLAG,
        /** A question that would tell candidates apart. */
        CANDIDATES
    }

    /**
     * One answer and what it would lead to.
     *
     * @param chance how likely it is taken to be, 0 to 1; orders questions and says nothing about the patient
     */
    public record Possible(Answer answer, double chance, Outlook then) {}
}
