package org.gerdy.rules;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.DecisionResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.ScoreResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;

/** A patient in a sentence: {@code Patient.aged(30).with("acute-injury", "days-since-injury: 2", "four-steps-now: absent")}. */
final class Patient {
    /** The danger screen of a benign adult runner, in asking order; every answer is the healthy one. */
    private static final List<String> HEALTHY = List.of(
            "acute-injury: absent",
            "four-steps-now: present",
            "pain-out-of-proportion: absent",
            "chest-symptoms: absent",
            "saddle-or-sphincter-change: absent",
            "leg-neuro-symptoms: absent",
            "back-pain: absent",
            "pain-radiates-down-leg: absent",
            "systemic-symptoms: absent",
            "pain-rest-or-night: absent",
            "history-of-cancer: absent",
            "prior-knee-procedure: absent",
            "symptom-duration: 5",
            "morning-stiffness: none",
            "pain-after-minutes-stops-within-minutes: absent",
            "groin-pain: absent",
            "bone-health-risk: absent",
            "prior-bsi: absent",
            "low-energy-availability: absent",
            "foot-cold-pale: absent",
            "calf-swelling: absent",
            "dorsiflexion-weakness: absent",
            "warmth-palpable: absent",
            "redness-joint: absent",
            "effusion-any: absent",
            "extension-block: absent",
            "focal-bony-tenderness: absent",
            "mass-palpable: absent",
            "hip-ir-limited: absent",
            "hip-ir-pain: absent",
            "lumbar-movement-reproduces-pain: absent",
            "pes-cavus: absent");

    private final String side;
    private final Map<String, String> answers;

    private Patient(String side, Map<String, String> answers) {
        this.side = side;
        this.answers = answers;
    }

    /** Nothing known but the age; the left leg hurts. */
    static Patient aged(int years) {
        return new Patient("left", Map.of("age", Integer.toString(years)));
    }

    /** A runner with every question of the danger screen answered the healthy way. */
    static Patient healthy(int years) {
        return aged(years).with("activity: running").with(HEALTHY.toArray(String[]::new));
    }

    /** Adds or changes answers; a bare id is present. */
    Patient with(String... added) {
        Map<String, String> changed = new LinkedHashMap<>(answers);
        for (String text : added) {
            String[] parts = text.split(":", 2);
            changed.put(parts[0], parts.length == 1 ? "present" : parts[1].strip());
        }
        return new Patient(side, changed);
    }

    Patient without(String... removed) {
        Map<String, String> changed = new LinkedHashMap<>(answers);
        changed.keySet().removeAll(Arrays.asList(removed));
        return new Patient(side, changed);
    }

    Patient side(String painful) {
        return new Patient(painful, answers);
    }

    String yaml() {
        return "gerdy: 1\ncase: patient\nvisits:\n  - date: 2026-03-02\n    side: " + side + "\n    findings:\n"
                + answers.entrySet().stream()
                        .map(entry -> "      " + entry.getKey() + ": " + entry.getValue() + "\n")
                        .collect(Collectors.joining());
    }

    CaseFile file() {
        try {
            return Shipped.GERDY.read(
                    "patient.yaml", new ByteArrayInputStream(yaml().getBytes(StandardCharsets.UTF_8)));
        } catch (MendableException e) {
            throw new AssertionError(e);
        }
    }

    Assessment assessed() {
        return Shipped.GERDY.assess(file());
    }

    /** The urgency, or {@code none} while the screen is incomplete and nothing is raised. */
    String urgency() {
        return assessed().urgency().map(urgency -> urgency.word()).orElse("none");
    }

    /** A flag as {@code raised urgent}, {@code open} or {@code cleared}. */
    String flag(String id) {
        Flag flag = assessed().flag(id);
        return flag.state().word()
                + flag.urgency().map(urgency -> " " + urgency.word()).orElse("");
    }

    /** The state of one row. */
    String row(String id) {
        return assessed().flags().stream()
                .flatMap(flag -> flag.rows().stream())
                .filter(row -> row.id().equals(id))
                .map(row -> row.state().word())
                .findFirst()
                .orElseThrow();
    }

    /** The ids of the raised flags. */
    List<String> raised() {
        return assessed().flags().stream()
                .filter(flag -> flag.state() == FlagState.RAISED)
                .map(Flag::id)
                .toList();
    }

    DecisionResult decisionRule(String id) {
        return assessed().decisionRules().stream()
                .filter(rule -> rule.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** How a decision rule came out. */
    String decision(String id) {
        return decisionRule(id).outcome().word();
    }

    /** A score as {@code 2 likely}, {@code -1..1 unlikely}, {@code not-applicable}; {@code not shown} when no item speaks. */
    String score(String id) {
        return assessed().scores().stream()
                .filter(score -> score.id().equals(id))
                .map(Patient::shown)
                .findFirst()
                .orElse("not shown");
    }

    private static String shown(ScoreResult score) {
        if (!score.applicable()) {
            return "not-applicable";
        }
        String total =
                score.low() == score.high() ? plain(score.low()) : plain(score.low()) + ".." + plain(score.high());
        return total + " " + score.band().orElse("no-band");
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
