package org.gerdy.engine.vocabulary;

import java.util.List;
import org.gerdy.engine.logic.Expression;

/**
 * A finding nobody is asked for: it follows from others, such as a cut-off on a number or a gate of a rule.
 *
 * @param id stable name, used by rules and tables like any finding
 * @param label what it means, in words
 * @param means the expression it follows from
 * @param sources bibliography keys behind the cut-off
 * @param basis where it comes from
 */
public record ComputedFinding(String id, String label, Expression means, List<String> sources, Basis basis) {}
