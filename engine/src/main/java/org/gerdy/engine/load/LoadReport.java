package org.gerdy.engine.load;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.gerdy.engine.casefile.Session;

/**
 * Training load up to one day. Windows end the day before the first painful session, since what comes after is changed
 * by the pain itself. Nothing here is a risk or an alarm: quantities describe.
 *
 * @param first first day of the record
 * @param last last day of the record
 * @param end last day of the windows
 * @param firstPainful day of the first painful session, if known
 * @param quantities by id, in the order of the table
 * @param spikes each run against the longest of the days before it, by day
 * @param onset the run the question is about: the longest of the first painful day, else the largest increase of the window
 * @param weeks seven-day blocks ending on {@code end}, oldest first
 * @param notes gaps, merged files and other oddities, one sentence each
 */
public record LoadReport(
        LocalDate first,
        LocalDate last,
        LocalDate end,
        Optional<LocalDate> firstPainful,
        Map<String, Quantity> quantities,
        List<Spike> spikes,
        Optional<Spike> onset,
        List<Week> weeks,
        List<String> notes) {

    /**
     * Seven days.
     *
     * @param from first day
     * @param metres metres run on the days that are known
     * @param runs how many runs
     * @param unknownDays days nothing is known of
     * @param longest longest run in metres
     */
    public record Week(LocalDate from, long metres, int runs, int unknownDays, long longest) {}

    /** The report. */
    public static LoadReport of(
            LoadHistory history, LocalDate asOf, Optional<LocalDate> firstPainful, LoadSettings settings) {
        LocalDate end = firstPainful.map(day -> day.minusDays(1)).orElse(asOf);
        List<String> notes = new ArrayList<>(history.notes());
        List<Spike> spikes = spikes(history, settings);
        Optional<Spike> onset = onset(spikes, end, firstPainful, settings);
        Map<String, Quantity> quantities = new LinkedHashMap<>();
        for (Quantity quantity : new LoadQuantities(history, end, settings).all()) {
            quantities.put(quantity.id(), quantity);
        }
        Quantity spike = spike(onset, firstPainful, settings);
        quantities.put(spike.id(), spike);
        notes.addAll(gaps(history, end, settings));
        return new LoadReport(
                history.first(),
                history.last(),
                end,
                firstPainful,
                java.util.Collections.unmodifiableMap(quantities),
                List.copyOf(spikes),
                onset,
                weeks(history, end),
                List.copyOf(notes));
    }

    /** The quantity of this id. Throws {@link IllegalArgumentException} for an unknown one. */
    public Quantity quantity(String id) {
        Quantity quantity = quantities.get(id);
        if (quantity == null) {
            throw new IllegalArgumentException("There is no load quantity '" + id + "'.");
        }
        return quantity;
    }

    private static List<Spike> spikes(LoadHistory history, LoadSettings settings) {
        List<Spike> spikes = new ArrayList<>();
        for (Session session : history.sessions()) {
            if (!session.running()
                    || session.metres().isEmpty()
                    || session.metres().getAsLong() == 0) {
                continue;
            }
            LocalDate day = session.day();
            long reference = 0;
            int known = 0;
            for (int back = 1; back <= settings.referenceDays(); back++) {
                LocalDate earlier = day.minusDays(back);
                reference = Math.max(reference, history.longest(earlier));
                known += history.on(earlier, LoadHistory.Amount.METRES).isPresent() ? 1 : 0;
            }
            OptionalLong longest = reference > 0 ? OptionalLong.of(reference) : OptionalLong.empty();
            long metres = session.metres().getAsLong();
            spikes.add(new Spike(day, metres, longest, known, Spike.state(metres, longest, known, settings)));
        }
        return spikes;
    }

    private static Optional<Spike> onset(
            List<Spike> spikes, LocalDate end, Optional<LocalDate> firstPainful, LoadSettings settings) {
        Optional<Spike> chosen = Optional.empty();
        for (Spike spike : spikes) {
            boolean asked = firstPainful.isPresent()
                    ? spike.day().equals(firstPainful.get())
                    : !spike.day().isAfter(end) && spike.day().isAfter(end.minusDays(settings.referenceDays()));
            if (asked && (chosen.isEmpty() || larger(spike, chosen.get(), firstPainful.isPresent()))) {
                chosen = Optional.of(spike);
            }
        }
        return chosen;
    }

    private static boolean larger(Spike spike, Spike than, boolean byDistance) {
        return byDistance
                ? spike.metres() > than.metres()
                : spike.percent().orElse(Double.NEGATIVE_INFINITY)
                        > than.percent().orElse(Double.NEGATIVE_INFINITY);
    }

    private static Quantity spike(Optional<Spike> onset, Optional<LocalDate> firstPainful, LoadSettings settings) {
        String label = firstPainful.isPresent()
                ? "First painful run against the longest of the " + settings.referenceDays() + " days before it"
                : "Largest increase of one run over the longest of the " + settings.referenceDays() + " days before it";
        String id = "session-spike";
        if (onset.isEmpty()) {
            return Quantity.none(
                    id,
                    label,
                    "percent",
                    firstPainful.isPresent()
                            ? "No run with a distance is recorded on " + firstPainful.get() + "."
                            : "No run with a distance in these days.");
        }
        Spike spike = onset.get();
        return switch (spike.state()) {
            case NO_REFERENCE ->
                Quantity.none(
                        id,
                        label,
                        "percent",
                        "No run in the " + settings.referenceDays() + " days before " + spike.day()
                                + "; ask about a return after a break.");
            case REFERENCE_INCOMPLETE ->
                Quantity.none(
                        id,
                        label,
                        "percent",
                        "Only " + spike.knownDays() + " of the " + settings.referenceDays() + " days before "
                                + spike.day()
                                + " are known, " + settings.referenceKnownDays()
                                + " are needed; a longer run may be missing, which would make this one look larger.");
            default ->
                Quantity.of(
                        id,
                        label,
                        spike.percent().orElseThrow(),
                        "percent",
                        kilometres(spike.metres()) + " km on " + spike.day() + ", longest before "
                                + kilometres(spike.reference().orElseThrow()) + " km: "
                                + spike.state().word() + ".");
        };
    }

    private static String kilometres(long metres) {
        return BigDecimal.valueOf(metres, 3).stripTrailingZeros().toPlainString();
    }

    private static List<Week> weeks(LoadHistory history, LocalDate end) {
        List<Week> weeks = new ArrayList<>();
        LocalDate start = end;
        while (!start.isBefore(history.first())) {
            LocalDate from = start.minusDays(6);
            long metres = 0;
            int runs = 0;
            int unknown = 0;
            long longest = 0;
            for (LocalDate day = from; !day.isAfter(start); day = day.plusDays(1)) {
                java.util.OptionalDouble amount = history.on(day, LoadHistory.Amount.METRES);
                metres += Math.round(amount.orElse(0));
                unknown += amount.isEmpty() ? 1 : 0;
                runs += history.runs(day);
                longest = Math.max(longest, history.longest(day));
            }
            weeks.add(0, new Week(from, metres, runs, unknown, longest));
            start = from.minusDays(1);
        }
        return List.copyOf(weeks);
    }

    private static List<String> gaps(LoadHistory history, LocalDate end, LoadSettings settings) {
        List<String> notes = new ArrayList<>();
        int days = settings.chronicDays();
        int unknown = days - history.known(end, days, LoadHistory.Amount.METRES);
        if (unknown > 0) {
            notes.add(
                    unknown + " of the " + days + " days up to " + end
                            + " are unknown, so this may be wrong: a missing long run makes a later one look larger, a missing recent run makes a week look smaller.");
        }
        if (end.isAfter(history.last())) {
            notes.add("The record ends on " + history.last() + ", before " + end + ".");
        }
        if (end.isBefore(history.first())) {
            notes.add("The record begins on " + history.first() + ", after " + end + "; nothing before is known.");
        }
        return notes;
    }
}
