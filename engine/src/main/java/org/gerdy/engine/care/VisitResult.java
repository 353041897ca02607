package org.gerdy.engine.care;

import org.gerdy.engine.assessment.Assessment;

/** Triage of one visit and what follows it. */
public record VisitResult(Assessment assessment, Aftercare aftercare) {}
