package org.gerdy.engine.load;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;

final class LoadFixtures {
    static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    /** Windows of the literature: 7, 28 and 30 days; bands of Frandsen 2025; the rest common practice, no source. */
    static final LoadSettings SETTINGS =
            new LoadSettings(7, 28, 30, 24, List.of(10, 30, 100), 56, 10, 120, 3, 30, 12, 0.5, 10, 300, 3, 5, 120);

    private LoadFixtures() {}

    static RunLog read(String name, String text, ZoneId zone) throws MendableException {
        return new RunFiles(zone, SETTINGS).read(name, new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    }

    static RunLog read(String name, String text) throws MendableException {
        return read(name, text, ZoneOffset.UTC);
    }

    /** One day each from {@code first}: metres, 0 for rest. */
    static LoadHistory daily(LocalDate first, long... metres) {
        List<Session> sessions = new ArrayList<>();
        Set<LocalDate> rest = new java.util.LinkedHashSet<>();
        for (int i = 0; i < metres.length; i++) {
            LocalDate day = first.plusDays(i);
            if (metres[i] == 0) {
                rest.add(day);
            } else {
                sessions.add(
                        Session.written(day, OptionalLong.of(metres[i]), OptionalLong.empty(), OptionalDouble.empty()));
            }
        }
        return LoadHistory.of(List.of(new RunLog(sessions, rest, List.of())), LoadHistory.Unlisted.UNKNOWN, SETTINGS);
    }

    /** One day each from {@code first}: session load as effort 1 for so many minutes, 0 for rest. */
    static LoadHistory dailyEffort(LocalDate first, int... load) {
        List<Session> sessions = new ArrayList<>();
        Set<LocalDate> rest = new java.util.LinkedHashSet<>();
        for (int i = 0; i < load.length; i++) {
            LocalDate day = first.plusDays(i);
            if (load[i] == 0) {
                rest.add(day);
            } else {
                sessions.add(Session.written(
                        day, OptionalLong.of(1000), OptionalLong.of(load[i] * 60L), OptionalDouble.of(1)));
            }
        }
        return LoadHistory.of(List.of(new RunLog(sessions, rest, List.of())), LoadHistory.Unlisted.UNKNOWN, SETTINGS);
    }
}
