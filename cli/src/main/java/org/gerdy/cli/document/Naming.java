package org.gerdy.cli.document;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gerdy.cli.Words;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Table;

/** How the things of a knowledge base are called in documents. */
final class Naming {
    private static final double METRES_A_KILOMETRE = 1000;

    private final KnowledgeBase knowledge;
    private final Words words;

    Naming(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        this.words = new Words(knowledge);
    }

    KnowledgeBase knowledge() {
        return knowledge;
    }

    /** How findings and flags are said on every page. */
    Words words() {
        return words;
    }

    /** A flag, a condition or a finding, whichever the id names. */
    String thing(String id) {
        if (knowledge.rowsByFlag().containsKey(id)) {
            return words.flag(id);
        }
        return Optional.ofNullable(knowledge.conditions().get(id))
                .map(condition -> condition.name())
                .orElseGet(() -> words.finding(id));
    }

    /** The works behind these keys, one line each. */
    List<String> citations(Iterable<String> keys) {
        Map<String, String> lines = new LinkedHashMap<>();
        for (String key : keys) {
            Optional.ofNullable(knowledge.bibliography().get(key))
                    .ifPresent(source -> lines.put(key, key + ": " + source.citation()));
        }
        return List.copyOf(lines.values());
    }

    /** Two columns of a table, as a map in table order. */
    Map<String, String> table(String name, String key, String value) {
        Map<String, String> cells = new LinkedHashMap<>();
        Table.read(knowledge.files(), "knowledge/" + name, List.of(key, value))
                .map(row -> cells.put(row.required(key), row.text(value)));
        return cells;
    }

    /** A drawing of the knowledge base; empty when it has none of this name. */
    Optional<String> drawing(String name) {
        String path = "drawings/" + name + ".svg";
        if (name.isEmpty() || !knowledge.files().has(path)) {
            return Optional.empty();
        }
        try (InputStream in = knowledge.files().open(path)) {
            return Optional.of(new String(in.readAllBytes(), StandardCharsets.UTF_8).strip());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A day in full, such as Monday 21 September 2026; the words are the same on every Java. */
    static String day(LocalDate date) {
        return word(date.getDayOfWeek()) + " " + date.getDayOfMonth() + " " + word(date.getMonth()) + " "
                + date.getYear();
    }

    static String shortDay(LocalDate date) {
        return word(date.getDayOfWeek()).substring(0, 3) + " " + dayOfMonth(date) + " " + date.getYear();
    }

    /** A day without its year, where the year stands beside it. */
    static String dayOfMonth(LocalDate date) {
        return date.getDayOfMonth() + " " + word(date.getMonth()).substring(0, 3);
    }

    private static String word(Enum<?> named) {
        return named.name().charAt(0) + named.name().substring(1).toLowerCase(Locale.ROOT);
    }

    /** Kilometres with one or two decimals. */
    static String km(long metres) {
        double km = metres / METRES_A_KILOMETRE;
        return String.format(Locale.ROOT, metres % 100 == 0 ? "%.1f km" : "%.2f km", km);
    }

    /** A distance to be run, in kilometres, one decimal, rounded down so that no cap is passed. */
    static String kmToRun(long metres) {
        return String.format(Locale.ROOT, "%.1f km", Math.floor(metres / 100.0) / 10);
    }

    /** A number without needless zeros, at most two decimals. */
    static String number(double value) {
        double rounded = Math.round(value * 100) / 100.0;
        return rounded == Math.rint(rounded) ? Long.toString((long) rounded) : Double.toString(rounded);
    }

    /** Weeks to the nearest half. */
    static String weeks(double weeks) {
        return number(Math.round(weeks * 2) / 2.0) + (weeks == 1 ? " week" : " weeks");
    }
}
