package org.gerdy.engine.review;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;

/** A row of the course table. */
public sealed interface CourseRow {
    /** Stable name. */
    String id();

    /** As shown. */
    String text();

    /** Bibliography keys. */
    List<String> sources();

    /** Where it comes from. */
    Basis basis();

    /**
     * What one study found at one time. Rows stand alone: two rows are two groups of people and make no curve.
     *
     * @param series the study the figure belongs to
     * @param week the time it is for, weeks; empty where the figure is itself a time
     * @param population whom it was seen in
     */
    record Expected(
            String id,
            String text,
            String series,
            OptionalDouble week,
            String population,
            List<String> sources,
            Basis basis)
            implements CourseRow {}

    /**
     * When the next look is due.
     *
     * @param fromWeek earliest, weeks from the first visit
     * @param toWeek latest, weeks from the first visit
     */
    record Visit(String id, String text, double fromWeek, double toWeek, List<String> sources, Basis basis)
            implements CourseRow {}

    /**
     * A threshold for doing something else.
     *
     * @param fromWeek from this week on, weeks from the first visit
     * @param beforeWeek before this week
     * @param responses the responses it is about; empty means any
     * @param trigger what else must have happened
     * @param when condition over findings
     * @param adherenceBelow share of the planned work done lies below this, percent
     * @param adherenceFrom share of the planned work done is at least this, percent
     * @param action what to do
     * @param within how soon
     */
    record Escalation(
            String id,
            String text,
            OptionalDouble fromWeek,
            OptionalDouble beforeWeek,
            List<Response> responses,
            Trigger trigger,
            Optional<Expression> when,
            OptionalDouble adherenceBelow,
            OptionalDouble adherenceFrom,
            String action,
            String within,
            List<String> sources,
            Basis basis)
            implements CourseRow {}

    /** What besides time and response an escalation waits for. */
    enum Trigger {
        NONE,
        /** A red flag is raised now. */
        RED_FLAG,
        /** Worse at two reviews close together. */
        WORSE_TWICE,
        /** Two reviews in a row with little change. */
        PLATEAU
    }
}
