package org.gerdy.engine.fact;

import java.util.List;

/**
 * A known finding with every row of the evidence table that it touches.
 *
 * @param finding the finding's id
 * @param present whether it is present; otherwise it is absent
 * @param rows the rows that carry a weight for that state
 * @param rule the rule that read the table
 */
public record Weighed(String finding, boolean present, List<EvidenceRow> rows, String rule) implements Conclusion {}
