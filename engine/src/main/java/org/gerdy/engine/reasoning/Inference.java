package org.gerdy.engine.reasoning;

import java.util.Collection;
import java.util.List;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Candidate;
import org.gerdy.engine.fact.Conclusion;

/** Where conclusions come from: a living rule session, or the written logic of the rules. */
interface Inference {
    /** Concludes from what is known of the patient, the evidence table left aside. */
    void observe(Observations observations);

    /** Concludes from what is known what the evidence table says about the candidates. */
    void weigh(Observations observations);

    /** Concludes from the candidates worth naming. */
    void conclude(Collection<Candidate> candidates);

    /** Everything concluded of a kind. */
    <T extends Conclusion> List<T> conclusions(Class<T> kind);
}
