package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.casefile.CaseFile;
import org.junit.jupiter.api.Test;

/** Same input, same bytes: again, in another knowledge base instance, and on many threads at once. */
class DeterminismTest {
    private static final int THREADS = 8;
    private static final int CASES = 200;

    private static List<RandomCase> some(int count) {
        return RandomCase.any().list().ofSize(count).sample();
    }

    private static String assessed(CaseFile file) {
        return AssessmentJson.pretty(Shipped.GERDY.assess(file));
    }

    @Test
    void eightThreadsGiveTheSameBytesAsOne() throws Exception {
        List<CaseFile> files = some(CASES).stream().map(RandomCase::file).toList();
        List<String> alone = files.stream().map(DeterminismTest::assessed).toList();
        ExecutorService threads = Executors.newFixedThreadPool(THREADS);
        try {
            List<Callable<List<String>>> work = new ArrayList<>();
            for (int thread = 0; thread < THREADS; thread++) {
                int start = thread * CASES / THREADS;
                work.add(() -> {
                    List<String> results = new ArrayList<>(Collections.nCopies(CASES, ""));
                    for (int i = 0; i < CASES; i++) {
                        int at = (start + i) % CASES;
                        results.set(at, assessed(files.get(at)));
                    }
                    return results;
                });
            }
            for (Future<List<String>> result : threads.invokeAll(work)) {
                assertThat(result.get()).isEqualTo(alone);
            }
        } finally {
            threads.shutdownNow();
        }
    }

    @Test
    void anotherInstanceGivesTheSameBytes() {
        var other = LateralKnee.gerdy();
        for (RandomCase one : some(50)) {
            assertThat(AssessmentJson.pretty(other.assess(one.file()))).isEqualTo(assessed(one.file()));
        }
    }
}
