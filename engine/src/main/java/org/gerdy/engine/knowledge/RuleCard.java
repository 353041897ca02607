package org.gerdy.engine.knowledge;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;

/**
 * One rule as its author wrote it.
 *
 * @param id short stable name
 * @param name the sentence that names it
 * @param file the DRL file, relative
 * @param line where it starts, from 1
 * @param row the table row it serves, such as a red flag row; may be empty
 * @param sources bibliography keys
 * @param basis where the rule comes from
 * @param because the reason in one sentence
 * @param reads the findings its condition reads, in the order written
 * @param logic its condition over findings as an expression; empty when it reads anything else
 * @param text the rule itself
 */
public record RuleCard(
        String id,
        String name,
        String file,
        int line,
        String row,
        List<String> sources,
        Basis basis,
        String because,
        Set<String> reads,
        Optional<Expression> logic,
        String text) {}
