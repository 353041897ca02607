package org.gerdy.engine.plan;

/**
 * What the clinician decided, in the clinician's words. It stands beside what was worked out and replaces none of it.
 *
 * @param decision what was decided
 * @param reason why, where it differs
 */
public record ClinicianDecision(String decision, String reason) {}
