package org.gerdy.engine.plan;

import java.util.Optional;
import org.gerdy.engine.knowledge.NumberRange;

/**
 * One step of running with part of the weight taken off.
 *
 * @param week its number, from 1
 * @param sessions sessions in the week
 * @param speedKmh belt speed, km/h
 * @param support how much is taken off
 * @param boutMinutes running in each bout, minutes
 * @param bouts bouts in a session
 * @param sessionMinutes length of a session, minutes
 */
public record SupportStep(
        int week,
        NumberRange sessions,
        Optional<NumberRange> speedKmh,
        WeightSupport support,
        NumberRange boutMinutes,
        NumberRange bouts,
        double sessionMinutes) {}
