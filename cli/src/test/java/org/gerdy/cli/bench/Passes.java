package org.gerdy.cli.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/** Takes several ways to do the same work in turn, round by round, by the processor time of this thread. */
final class Passes {
    private static final int WARMING = 3;
    private static final int ROUNDS = 7;
    private static final long LEAST_NANOS = 500_000_000;

    private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    private int sink;

    /** For each way its microseconds for one of these items, one number a round. */
    <T> Map<String, List<Double>> microseconds(List<T> items, Map<String, Function<T, Object>> ways) {
        Map<String, List<Double>> times = new LinkedHashMap<>();
        for (int round = 0; round < WARMING + ROUNDS; round++) {
            for (Map.Entry<String, Function<T, Object>> way : ways.entrySet()) {
                double microseconds = microseconds(items, way.getValue());
                if (round >= WARMING) {
                    times.computeIfAbsent(way.getKey(), ignored -> new ArrayList<>())
                            .add(microseconds);
                }
            }
        }
        return times;
    }

    private <T> double microseconds(List<T> items, Function<T, Object> way) {
        long start = threads.getCurrentThreadCpuTime();
        long taken = 0;
        long done = 0;
        while (taken < LEAST_NANOS) {
            for (T item : items) {
                // Kept, so that no work can be left out as useless.
                sink += System.identityHashCode(way.apply(item)) & 1;
                done++;
            }
            taken = threads.getCurrentThreadCpuTime() - start;
        }
        return taken / 1e3 / done;
    }

    @Override
    public String toString() {
        return "Passes " + sink;
    }
}
