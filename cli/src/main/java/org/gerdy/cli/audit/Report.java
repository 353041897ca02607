package org.gerdy.cli.audit;

import java.util.Optional;
import org.gerdy.engine.audit.Against;
import org.gerdy.engine.audit.Audit;
import org.gerdy.engine.audit.Mutation;
import org.gerdy.engine.audit.SafetyProof;
import org.gerdy.engine.knowledge.KnowledgeBase;

/**
 * Everything one audit has to tell.
 *
 * @param knowledge the knowledge base audited
 * @param audit the cases as run
 * @param against the comparison with another knowledge base, if asked for
 * @param mutation the slips tried, if asked for
 * @param proof the invariants visited, if asked for
 */
public record Report(
        KnowledgeBase knowledge,
        Audit audit,
        Optional<Against> against,
        Optional<Mutation> mutation,
        Optional<SafetyProof> proof) {

    /** Whether any case differs from what it expects, any conclusion changed, or an invariant was broken. */
    public boolean foundDifference() {
        return !audit.holds()
                || against.map(Against::differs).orElse(false)
                || proof.map(found -> !found.holds()).orElse(false);
    }

    /** What was found, in one sentence. */
    public String sentence() {
        int cases = audit.results().size();
        int differing = audit.differing().size();
        String text = differing == 0
                ? "All " + cases + " cases hold."
                : differing + " of " + cases + (differing == 1 ? " cases differs." : " cases differ.");
        if (against.isPresent()) {
            int fell = against.get().fell().size();
            text += " Against the other knowledge base " + against.get().cases().size() + " changed, " + fell
                    + " with a lower urgency.";
        }
        return text;
    }
}
