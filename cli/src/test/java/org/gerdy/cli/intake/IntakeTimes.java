package org.gerdy.cli.intake;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.intake.WhatIf;
import org.gerdy.rules.LateralKnee;

/**
 * How long somebody at the keys waits: from each key press to the next screen over whole intakes, the answer put on the disk
 * and the next question ranked, and what every single change of one visit would do.
 */
public final class IntakeTimes {
    private static final int WARMING = 2;

    private final Gerdy gerdy = LateralKnee.gerdy();
    private final List<Long> keysClock = new ArrayList<>();
    private final List<Long> keysWorked = new ArrayList<>();
    private final List<Long> changesClock = new ArrayList<>();
    private final List<Long> changesWorked = new ArrayList<>();

    private IntakeTimes() {}

    /** Walks through the case files of these directories and prints the table. */
    public static void run(Path... directories) throws Exception {
        new IntakeTimes().walk(directories);
    }

    private void walk(Path... directories) throws Exception {
        List<CaseFile> cases = new ArrayList<>();
        for (Path directory : directories) {
            try (Stream<Path> files = Files.list(directory)) {
                for (Path file : files.filter(one -> one.toString().endsWith(".yaml"))
                        .sorted()
                        .toList()) {
                    cases.add(gerdy.read(file));
                }
            }
        }
        for (int round = 0; round <= WARMING; round++) {
            for (CaseFile one : cases) {
                walk(one, round == WARMING);
            }
        }
        System.out.println();
        System.out.println("| over " + cases.size()
                + " case files | times | clock, median, ms | clock, 99th percentile, ms | processor time, median, ms |"
                + " processor time, 99th percentile, ms |");
        System.out.println("|---|---|---|---|---|---|");
        print("key press to next screen", keysClock, keysWorked);
        print("every single change of a visit", changesClock, changesWorked);
    }

    private void walk(CaseFile one, boolean counts) throws Exception {
        KeystrokesTest keys = new KeystrokesTest();
        keys.directory = Files.createTempDirectory("gerdy-intake");
        try {
            KeystrokesTest.Walk walk = keys.walk(one, "walk");
            if (counts) {
                keysClock.addAll(walk.nanos());
                keysWorked.addAll(walk.worked());
            }
        } finally {
            delete(keys.directory);
        }
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        try (WhatIf whatIf = new WhatIf(gerdy, one, one.latest())) {
            long clock = System.nanoTime();
            long worked = threads.getCurrentThreadCpuTime();
            whatIf.ofRecorded();
            whatIf.ofOpen();
            if (counts) {
                changesClock.add(System.nanoTime() - clock);
                changesWorked.add(threads.getCurrentThreadCpuTime() - worked);
            }
        }
    }

    private static void delete(Path directory) throws IOException {
        try (Stream<Path> files = Files.list(directory)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(directory);
    }

    private static void print(String name, List<Long> clock, List<Long> worked) {
        System.out.printf(
                Locale.ROOT,
                "| %s | %d | %.1f | %.1f | %.1f | %.1f |%n",
                name,
                clock.size(),
                KeystrokesTest.percentile(clock, 0.5),
                KeystrokesTest.percentile(clock, 0.99),
                KeystrokesTest.percentile(worked, 0.5),
                KeystrokesTest.percentile(worked, 0.99));
    }
}
