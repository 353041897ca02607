package org.gerdy.engine.measure;

import java.util.List;
import org.gerdy.engine.vocabulary.Basis;

/**
 * What one study or custom says about a factor.
 *
 * @param id row id
 * @param factor the factor
 * @param says what was found, one sentence or two
 * @param population who was studied
 * @param sources bibliography keys
 * @param basis where it comes from
 * @param note limits
 */
public record EvidenceStatement(
        String id, String factor, String says, String population, List<String> sources, Basis basis, String note) {}
