package org.gerdy.cli;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.FactorResult;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.load.LoadReport;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.Plain;
import org.gerdy.engine.vocabulary.Urgency;

/** Contributing factors as plain text. */
public final class Factors {
    /** Said before factors where something presses. */
    public static final String LATER = "For later. None of this delays the urgency above.";

    private Factors() {}

    /** What contributes, then what is borderline. */
    public static List<FactorResult> told(Assessment assessment) {
        return assessment.factors().stream()
                .filter(factor -> factor.verdict().compareTo(FactorVerdict.BORDERLINE) >= 0)
                .sorted((a, b) -> b.verdict().compareTo(a.verdict()))
                .toList();
    }

    /** Whether the urgency leaves factors for later. */
    public static boolean pressing(Assessment assessment) {
        return assessment
                .urgency()
                .filter(urgency -> urgency.compareTo(Urgency.ROUTINE_REFERRAL) > 0)
                .isPresent();
    }

    /** Whether a page about the visit has anything to say of factors. */
    public static boolean shown(Assessment assessment) {
        return !assessment.factors().isEmpty()
                && !(pressing(assessment) && told(assessment).isEmpty());
    }

    /** The section of a summary: what counts or nearly counts in full, the rest in a line each. */
    static void section(Page page, Assessment assessment) {
        List<FactorResult> told = told(assessment);
        List<FactorResult> notFound = assessment.factors(FactorVerdict.NOT_FOUND);
        long notMeasured = assessment.factors(FactorVerdict.NOT_MEASURED).size();
        boolean pressing = pressing(assessment);
        if (!shown(assessment)) {
            return;
        }
        page.heading("Contributing factors");
        if (pressing) {
            page.hanging("", LATER);
        }
        told.forEach(factor -> full(page, factor));
        if (!notFound.isEmpty()) {
            page.hanging(
                    "Looked at, nothing that counts: ",
                    2,
                    notFound.stream().map(FactorResult::label).collect(Collectors.joining("; ")) + ".");
        }
        assessment.load().ifPresent(load -> load(page, load));
        if (notMeasured > 0 && !pressing) {
            page.hanging(
                    "Not measured: ",
                    2,
                    notMeasured + " of " + assessment.factors().size()
                            + " factors; 'gerdy measure' shows how each is taken.");
        }
    }

    private static void load(Page page, LoadReport load) {
        page.hanging(
                "Training record: ",
                2,
                load.first() + " to " + load.last() + ", windows end on " + load.end()
                        + "; 'gerdy load' prints its table.");
        load.notes().forEach(note -> page.hanging("  - ", note));
    }

    /** One factor with what was seen, what it is held against, its error and its tie to the complaint. */
    static void full(Page page, FactorResult factor) {
        page.hanging("* ", factor.label() + ": " + word(factor));
        line(page, "  Found:   ", found(factor));
        line(page, "  Why:     ", why(factor));
        line(page, "  Norm:    ", factor.norm());
        line(page, "  Error:   ", error(factor));
        line(page, "  Studies: ", studies(factor));
        line(page, "  Sources: ", sources(factor));
    }

    private static String word(FactorResult factor) {
        return switch (factor.verdict()) {
            case CONTRIBUTES -> "contributes";
            case BORDERLINE -> "borderline";
            case NOT_FOUND -> "not found";
            case NOT_MEASURED -> "not measured";
        };
    }

    /** The number of a factor with what was recorded. */
    public static String found(FactorResult factor) {
        String value = factor.value().isPresent()
                ? (Plain.brief(factor.value().getAsDouble()) + " " + factor.unit()).strip()
                : "";
        return value.isEmpty() || factor.seen().equals(value)
                ? factor.seen()
                : factor.seen().isEmpty() ? value : value + " (" + factor.seen() + ")";
    }

    /** The step that says what the value is and what it is held against. */
    private static String why(FactorResult factor) {
        return factor.reasons().stream()
                .filter(reason -> reason.rule().startsWith(FactorCards.FACTOR))
                .map(Reason::because)
                .findFirst()
                .orElse("");
    }

    /** The tie as a word, unless the sentence begins with it. */
    private static String studies(FactorResult factor) {
        String tie = Words.plain(factor.tie());
        boolean said = factor.association().regionMatches(true, 0, tie, 0, tie.length());
        return said
                ? factor.association()
                : Character.toUpperCase(tie.charAt(0)) + tie.substring(1) + ". " + factor.association();
    }

    private static String error(FactorResult factor) {
        String smallest = factor.error().isPresent()
                ? "less than " + (Plain.brief(factor.error().getAsDouble()) + " " + factor.unit()).strip()
                        + " may be noise"
                : factor.reliability().isEmpty() ? "" : "no smallest detectable difference was read";
        return factor.reliability().isEmpty() ? smallest : smallest + " (" + factor.reliability() + ")";
    }

    private static String sources(FactorResult factor) {
        Set<String> keys = new LinkedHashSet<>();
        Set<String> bases = new LinkedHashSet<>();
        for (Reason reason : factor.reasons()) {
            keys.addAll(reason.sources());
            bases.add(reason.basis().word());
        }
        return (keys.isEmpty() ? "none" : String.join(", ", keys)) + " (" + String.join(", ", bases) + ")";
    }

    private static void line(Page page, String label, String text) {
        if (!text.isEmpty()) {
            page.hanging(label, text);
        }
    }
}
