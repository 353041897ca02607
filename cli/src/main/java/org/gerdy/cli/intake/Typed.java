package org.gerdy.cli.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.cli.Words;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.AnswerText;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.IntakeTables;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/**
 * Reads what was typed for one finding: a state, a choice, a day, or numbers with units, sides and repeated trials, such
 * as {@code 130}, {@code 12.5 kgf}, {@code left 120 118 125 right 131}.
 *
 * @param answers by side; the empty side is the person, or the side asked about
 * @param trials a sentence for the notes when several trials made one number, else empty
 */
record Typed(Map<Optional<Side>, Answer> answers, String trials) {
    private static final Pattern SIDE = Pattern.compile("\\b(left|right|both|l|r)\\b");
    private static final Pattern NUMBER = Pattern.compile("[-+]?[0-9]+(?:[.,][0-9]+)?");

    /** Throws {@link MendableException} saying what the finding takes when the text is no answer to it. */
    static Typed read(KnowledgeBase knowledge, FindingDefinition finding, String text) throws MendableException {
        String plain = text.strip();
        if (!finding.kind().isQuantity()) {
            Map<Optional<Side>, Answer> answers = new LinkedHashMap<>();
            for (Map.Entry<Optional<Side>, String> part : parts(finding, plain).entrySet()) {
                answers.put(
                        part.getKey(), AnswerText.read(knowledge.catalogue(), finding, word(finding, part.getValue())));
            }
            return new Typed(answers, "");
        }
        Map<Optional<Side>, Answer> answers = new LinkedHashMap<>();
        List<String> told = new ArrayList<>();
        for (Map.Entry<Optional<Side>, String> part : parts(finding, plain).entrySet()) {
            Optional<Numbers> typed = Numbers.in(part.getValue());
            if (typed.isEmpty()) {
                answers.put(part.getKey(), AnswerText.read(knowledge.catalogue(), finding, part.getValue()));
                continue;
            }
            if (typed.get().values().size() > 1 && finding.equipment().isEmpty()) {
                throw wrong("'" + finding.id() + "' takes one number; only what is measured takes several trials.");
            }
            List<Answer.Quantity> trials = new ArrayList<>();
            for (String number : typed.get().values()) {
                trials.add(quantity(knowledge, finding, number, typed.get().unit()));
            }
            Answer.Quantity kept = together(knowledge, finding, trials);
            answers.put(part.getKey(), kept);
            if (trials.size() > 1) {
                told.add(part.getKey().map(side -> side.word() + " ").orElse("")
                        + String.join(
                                ", ", trials.stream().map(Answer.Quantity::text).toList()) + ", kept "
                        + kept.text());
            }
        }
        return new Typed(
                answers, told.isEmpty() ? "" : "Trials of " + finding.id() + ": " + String.join("; ", told) + ".");
    }

    private static Answer.Quantity quantity(
            KnowledgeBase knowledge, FindingDefinition finding, String number, String unit) throws MendableException {
        String shown = unit.isEmpty() ? finding.kind() == Kind.SCALE_0_10 ? "" : finding.unit() : unit;
        boolean bare = shown.isEmpty() || shown.equals("points");
        return (Answer.Quantity) AnswerText.read(knowledge.catalogue(), finding, bare ? number : number + " " + shown);
    }

    private static Answer.Quantity together(
            KnowledgeBase knowledge, FindingDefinition finding, List<Answer.Quantity> trials) throws MendableException {
        if (trials.size() == 1) {
            return trials.get(0);
        }
        if (knowledge.intake().trials(finding) == IntakeTables.Trials.BEST) {
            return trials.stream()
                    .reduce((a, b) -> b.value() > a.value() ? b : a)
                    .orElseThrow();
        }
        double mean =
                trials.stream().mapToDouble(Answer.Quantity::value).average().orElseThrow();
        return quantity(knowledge, finding, Words.number(Math.round(mean * 100) / 100.0), finding.unit());
    }

    /**
     * Numbers with spaces between, and the unit after the last.
     *
     * @param unit as typed; empty without one
     */
    private record Numbers(List<String> values, String unit) {
        /** Empty when the text is anything else. */
        static Optional<Numbers> in(String text) {
            List<String> values = new ArrayList<>();
            Matcher matcher = NUMBER.matcher(text);
            int end = 0;
            while (matcher.find()) {
                boolean apart = values.isEmpty()
                        ? matcher.start() == 0
                        : text.substring(end, matcher.start()).matches("[,;]?\\s+");
                if (!apart) {
                    return Optional.empty();
                }
                values.add(matcher.group().replace(',', '.'));
                end = matcher.end();
            }
            String unit = text.substring(end).strip();
            return values.isEmpty() || unit.matches("[eE][-+]?")
                    ? Optional.empty()
                    : Optional.of(new Numbers(values, unit));
        }
    }

    private static MendableException wrong(String message) {
        return new MendableException("answer", message);
    }

    private static Map<Optional<Side>, String> parts(FindingDefinition finding, String text) throws MendableException {
        Map<Optional<Side>, String> parts = new LinkedHashMap<>();
        Matcher matcher = SIDE.matcher(text.toLowerCase(Locale.ROOT));
        if (!finding.perSide() || !matcher.lookingAt()) {
            parts.put(Optional.empty(), text);
            return parts;
        }
        matcher.reset();
        int from = 0;
        List<Side> sides = List.of();
        while (matcher.find()) {
            put(parts, finding, sides, text.substring(from, matcher.start()).strip());
            sides = switch (matcher.group().charAt(0)) {
                case 'l' -> List.of(Side.LEFT);
                case 'r' -> List.of(Side.RIGHT);
                default -> List.of(Side.LEFT, Side.RIGHT);
            };
            from = matcher.end();
        }
        put(parts, finding, sides, text.substring(from).strip());
        return parts;
    }

    private static void put(
            Map<Optional<Side>, String> parts, FindingDefinition finding, List<Side> sides, String answer)
            throws MendableException {
        for (Side side : sides) {
            if (parts.put(Optional.of(side), answer) != null) {
                throw wrong("'" + finding.id() + "' names the " + side.word() + " side twice; say it once.");
            }
        }
    }

    private static String word(FindingDefinition finding, String text) {
        if (finding.kind() == Kind.YES_NO) {
            return switch (text.toLowerCase(Locale.ROOT)) {
                case "y", "yes", "present" -> "present";
                case "n", "no", "absent" -> "absent";
                case "u", "unable" -> "unable";
                default -> text;
            };
        }
        if (finding.kind() == Kind.CHOICE && text.matches("[0-9]{1,2}")) {
            int number = Integer.parseInt(text);
            return number >= 1 && number <= finding.choices().size()
                    ? finding.choices().get(number - 1)
                    : text;
        }
        return text;
    }
}
