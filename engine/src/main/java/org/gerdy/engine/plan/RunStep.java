package org.gerdy.engine.plan;

import java.util.OptionalDouble;

/**
 * One step of a walk-run table.
 *
 * @param phase its number, from 1
 * @param effort how hard it should feel, 0 to 10
 * @param walkMinutes walking in each round, minutes
 * @param runMinutes running in each round, minutes; empty when the running is continuous
 * @param metres whole distance, walking included, metres
 */
public record RunStep(int phase, OptionalDouble effort, double walkMinutes, OptionalDouble runMinutes, long metres) {}
