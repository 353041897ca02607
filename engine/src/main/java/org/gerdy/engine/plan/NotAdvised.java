package org.gerdy.engine.plan;

import java.util.List;
import org.gerdy.engine.vocabulary.Basis;

/**
 * Something not advised, and why.
 *
 * @param id stable name
 * @param label what it is
 * @param why the reason
 * @param instead what to do rather, may be empty
 * @param conditions the conditions it is about; empty means any
 * @param stages the stages it is about; empty means every stage
 * @param sources bibliography keys
 * @param basis where it comes from
 */
public record NotAdvised(
        String id,
        String label,
        String why,
        String instead,
        List<String> conditions,
        List<String> stages,
        List<String> sources,
        Basis basis) {}
