package org.gerdy.engine.load;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.gerdy.engine.casefile.RunLog;
import org.gerdy.engine.casefile.Session;
import org.gerdy.engine.load.LoadHistory.Unlisted;
import org.junit.jupiter.api.Test;

class LoadReportTest {
    private static final LocalDate MONDAY = LoadFixtures.MONDAY;
    private static final long[] STEADY_MONTH = new long[30];

    static {
        Arrays.fill(STEADY_MONTH, 8000);
    }

    private static LoadReport at(LoadHistory history, LocalDate end) {
        return LoadReport.of(history, end, Optional.empty(), LoadFixtures.SETTINGS);
    }

    private static LoadReport painful(LoadHistory history, LocalDate first) {
        return LoadReport.of(history, history.last(), Optional.of(first), LoadFixtures.SETTINGS);
    }

    private static long[] then(long[] days, long... more) {
        long[] all = Arrays.copyOf(days, days.length + more.length);
        System.arraycopy(more, 0, all, days.length, more.length);
        return all;
    }

    @Test
    void theFirstPainfulRunIsHeldAgainstTheThirtyDaysBeforeIt() {
        LoadHistory history = LoadFixtures.daily(MONDAY, then(STEADY_MONTH, 12_000, 30_000));
        LoadReport report = painful(history, MONDAY.plusDays(30));
        assertThat(report.quantity("session-spike").value()).hasValue(50);
        assertThat(report.onset().orElseThrow().state()).isEqualTo(Spike.State.MODERATE);
    }

    @Test
    void windowsEndTheDayBeforePainBegan() {
        LoadHistory history = LoadFixtures.daily(MONDAY, then(STEADY_MONTH, 12_000, 30_000));
        LoadReport report = painful(history, MONDAY.plusDays(30));
        assertThat(report.end()).isEqualTo(MONDAY.plusDays(29));
        assertThat(report.quantity("acute-distance").value()).hasValue(56);
        assertThat(report.quantity("ratio-coupled-distance").value().getAsDouble())
                .isCloseTo(1, within(1e-12));
    }

    @Test
    void aRunAfterABreakHasNoReferenceAndIsNoInfiniteSpike() {
        LoadHistory history = LoadFixtures.daily(MONDAY, then(new long[30], 8000));
        LoadReport report = at(history, MONDAY.plusDays(30));
        assertThat(report.onset().orElseThrow().state()).isEqualTo(Spike.State.NO_REFERENCE);
        assertThat(report.quantity("session-spike").value()).isEmpty();
        assertThat(report.quantity("session-spike").remark()).contains("return after a break");
    }

    @Test
    void aReferenceWithManyUnknownDaysIsIncomplete() {
        List<Session> few = new ArrayList<>();
        for (int i = 0; i < 30; i += 3) {
            few.add(run(MONDAY.plusDays(i), 8000));
        }
        few.add(run(MONDAY.plusDays(30), 20_000));
        LoadHistory unknown =
                LoadHistory.of(List.of(new RunLog(few, Set.of(), List.of())), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        assertThat(at(unknown, MONDAY.plusDays(30)).quantity("session-spike").remark())
                .contains("Only 10 of the 30 days")
                .contains("a longer run may be missing");
        LoadHistory complete =
                LoadHistory.of(List.of(new RunLog(few, Set.of(), List.of())), Unlisted.REST, LoadFixtures.SETTINGS);
        assertThat(at(complete, MONDAY.plusDays(30)).quantity("session-spike").value())
                .hasValue(150);
    }

    private static Session run(LocalDate day, long metres) {
        return Session.written(day, OptionalLong.of(metres), OptionalLong.empty(), OptionalDouble.empty());
    }

    @Test
    void unknownDaysAreNeverCountedAsZero() {
        List<Session> sessions = new ArrayList<>();
        for (int i = 0; i < 28; i++) {
            if (i != 25) {
                sessions.add(run(MONDAY.plusDays(i), 5000));
            }
        }
        LoadHistory history = LoadHistory.of(
                List.of(new RunLog(sessions, Set.of(), List.of())), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        LoadReport report = at(history, MONDAY.plusDays(27));
        assertThat(report.quantity("acute-distance").value()).isEmpty();
        assertThat(report.quantity("acute-distance").remark()).contains("6 are known");
        assertThat(report.quantity("ratio-coupled-distance").value()).isEmpty();
        assertThat(report.quantity("weighted-ratio-distance").value()).isEmpty();
        assertThat(report.notes()).anyMatch(note -> note.startsWith("1 of the 28 days"));
    }

    @Test
    void aSecondRunOfTheDayIsNotHeldAgainstTheFirst() {
        List<Session> sessions = new ArrayList<>();
        for (int i = 0; i < 30; i++) {
            sessions.add(run(MONDAY.plusDays(i), 5000));
        }
        sessions.add(run(MONDAY.plusDays(30), 10_000));
        sessions.add(run(MONDAY.plusDays(30), 6000));
        LoadHistory history = LoadHistory.of(
                List.of(new RunLog(sessions, Set.of(), List.of())), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        List<Spike> spikes = at(history, MONDAY.plusDays(30)).spikes();
        assertThat(spikes.subList(30, 32))
                .allSatisfy(spike -> assertThat(spike.reference()).hasValue(5000));
    }

    @Test
    void thirtyOneDaysBackIsTooFarToBeTheReference() {
        long[] days = new long[32];
        days[0] = 20_000;
        days[1] = 6000;
        days[31] = 9000;
        Spike last = at(LoadFixtures.daily(MONDAY, days), MONDAY.plusDays(31))
                .spikes()
                .get(2);
        assertThat(last.reference()).hasValue(6000);
    }

    @Test
    void monotonyAndStrainAreShownForAnOrdinaryWeekAndWithheldForAVeryEvenOne() {
        LoadReport ordinary = at(LoadFixtures.dailyEffort(MONDAY, 300, 0, 450, 0, 240, 600, 0), MONDAY.plusDays(6));
        assertThat(ordinary.quantity("monotony").value().getAsDouble()).isCloseTo(0.941884, within(1e-6));
        assertThat(ordinary.quantity("strain").value().getAsDouble()).isCloseTo(1497.596021, within(1e-6));
        LoadReport even = at(LoadFixtures.dailyEffort(MONDAY, 220, 230, 225, 235, 220, 230, 230), MONDAY.plusDays(6));
        assertThat(even.quantity("monotony").value()).isEmpty();
        assertThat(even.quantity("monotony").remark()).contains("very even week");
        LoadReport nothing = at(LoadFixtures.dailyEffort(MONDAY, 0, 0, 0, 0, 0, 0, 0), MONDAY.plusDays(6));
        assertThat(nothing.quantity("strain").value()).isEmpty();
    }

    @Test
    void effortWithoutARatingIsUnknown() {
        LoadReport report = at(LoadFixtures.daily(MONDAY, 5000, 0, 5000, 0, 5000, 0, 5000), MONDAY.plusDays(6));
        assertThat(report.quantity("acute-distance").value()).hasValue(20);
        assertThat(report.quantity("acute-effort").value()).isEmpty();
        assertThat(report.quantity("monotony").remark()).contains("3 are known");
    }

    @Test
    void theWeightedMeanIsWithheldForFourWeeksAndProvisionalForEight() {
        long[] days = new long[60];
        Arrays.fill(days, 6000);
        LoadHistory history = LoadFixtures.daily(MONDAY, days);
        assertThat(at(history, MONDAY.plusDays(26))
                        .quantity("weighted-ratio-distance")
                        .value())
                .isEmpty();
        assertThat(at(history, MONDAY.plusDays(28))
                        .quantity("weighted-ratio-distance")
                        .remark())
                .contains("13.5 %");
        assertThat(at(history, MONDAY.plusDays(57))
                        .quantity("weighted-ratio-distance")
                        .remark())
                .isEmpty();
    }

    @Test
    void theFirstWeekBackHasNoPercentChange() {
        long[] days = new long[14];
        Arrays.fill(days, 7, 14, 5000);
        assertThat(at(LoadFixtures.daily(MONDAY, days), MONDAY.plusDays(13))
                        .quantity("week-change-distance")
                        .remark())
                .contains("first week back");
    }

    @Test
    void surfacesNeverWrittenDownBeforeAreNamed() {
        List<Session> sessions = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            sessions.add(withSurface(MONDAY.plusDays(i), i == 55 ? "Trail downhill" : "road"));
        }
        LoadHistory history = LoadHistory.of(
                List.of(new RunLog(sessions, Set.of(), List.of())), Unlisted.UNKNOWN, LoadFixtures.SETTINGS);
        Quantity fresh = at(history, MONDAY.plusDays(59)).quantity("new-surfaces");
        assertThat(fresh.value()).hasValue(1);
        assertThat(fresh.remark()).isEqualTo("trail downhill");
    }

    private static Session withSurface(LocalDate day, String surface) {
        OptionalDouble none = OptionalDouble.empty();
        return new Session(
                day,
                Optional.empty(),
                OptionalLong.of(5000),
                OptionalLong.empty(),
                OptionalLong.empty(),
                none,
                none,
                none,
                none,
                true,
                surface,
                false,
                0,
                "d.csv:1");
    }

    @Test
    void tenYearsOfDailyRunsAreReckonedInWellUnderASecond() {
        long[] days = new long[3653];
        for (int i = 0; i < days.length; i++) {
            days[i] = 4000 + i % 9 * 700;
        }
        LoadHistory history = LoadFixtures.daily(MONDAY, days);
        at(history, history.last());
        long start = System.nanoTime();
        LoadReport report = at(LoadFixtures.daily(MONDAY, days), history.last());
        assertThat((System.nanoTime() - start) / 1e6).as("milliseconds").isLessThan(1000);
        assertThat(report.spikes()).hasSize(3653);
    }

    @Property(tries = 200)
    void aLongerFirstPainfulRunNeverLowersItsSpike(
            @ForAll @Size(30) List<@IntRange(min = 0, max = 20_000) Integer> before,
            @ForAll @IntRange(min = 1, max = 30_000) int metres,
            @ForAll @IntRange(min = 0, max = 5000) int more) {
        long[] days = before.stream().mapToLong(Integer::longValue).toArray();
        Spike shorter = painful(LoadFixtures.daily(MONDAY, then(days, metres)), MONDAY.plusDays(30))
                .onset()
                .orElseThrow();
        Spike longer = painful(LoadFixtures.daily(MONDAY, then(days, metres + more)), MONDAY.plusDays(30))
                .onset()
                .orElseThrow();
        assertThat(longer.state()).isGreaterThanOrEqualTo(shorter.state());
    }

    @Property(tries = 200)
    void whatIsRunFromThePainfulDayOnChangesNoWindow(
            @ForAll @Size(35) List<@IntRange(min = 0, max = 20_000) Integer> metres,
            @ForAll @IntRange(min = 1, max = 40_000) int later) {
        long[] days = metres.stream().mapToLong(Integer::longValue).toArray();
        LocalDate pain = MONDAY.plusDays(35);
        LoadReport one = painful(LoadFixtures.daily(MONDAY, then(days, 5000, 1000)), pain);
        LoadReport two = painful(LoadFixtures.daily(MONDAY, then(days, 5000, later)), pain);
        assertThat(one.quantities()).isEqualTo(two.quantities());
    }
}
