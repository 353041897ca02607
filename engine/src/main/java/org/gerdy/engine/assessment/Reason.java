package org.gerdy.engine.assessment;

import java.util.List;
import org.gerdy.engine.vocabulary.Basis;

/**
 * Why something was concluded.
 *
 * @param rule the rule's id, or the table row
 * @param because the rule's own sentence
 * @param findings what matched, with the values recorded
 * @param sources bibliography keys
 * @param basis where the rule comes from
 */
public record Reason(String rule, String because, List<Read> findings, List<String> sources, Basis basis) {
    /** A finding and its value as recorded. */
    public record Read(String id, String value) {}
}
