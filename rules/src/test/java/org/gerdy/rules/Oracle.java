package org.gerdy.rules;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToIntFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;

/** Decides every row of every red flag straight from the table's expressions, without the rules and the engine. */
final class Oracle {
    private final Map<String, Map<String, String>> findings = new LinkedHashMap<>();
    private final Map<String, Three> gates = new HashMap<>();
    private final Map<String, Three> terms = new HashMap<>();
    private final Set<String> comparedBetweenSides;
    private final List<Row> rows = new ArrayList<>();

    /** One row with its expressions read. */
    record Row(
            String id,
            Optional<Three> appliesIf,
            Three raisedWhen,
            Optional<Three> trigger,
            List<String> needs,
            List<String> mentions) {}

    Oracle() {
        for (Map<String, String> row : Shipped.table("findings.csv")) {
            findings.put(row.get("id"), row);
            if (!row.get("only_if").isBlank()) {
                gates.put(row.get("id"), Three.read(row.get("only_if")));
            }
        }
        StringBuilder sides = new StringBuilder();
        for (String table : List.of("red-flag-terms.csv", "terms.csv", "derived.csv")) {
            for (Map<String, String> row : Shipped.table(table)) {
                terms.put(row.get("id"), Three.read(row.get("means")));
                sides.append(row.get("means")).append('\n');
            }
        }
        comparedBetweenSides = Pattern.compile("side-diff\\(([a-z0-9-]+)\\)")
                .matcher(sides)
                .results()
                .map(match -> match.group(1))
                .collect(Collectors.toSet());
        for (Map<String, String> row : Shipped.table("red-flags.csv")) {
            rows.add(new Row(
                    row.get("row"),
                    optional(row.get("applies_if")),
                    Three.read(row.get("raised_when")),
                    optional(row.get("trigger")),
                    row.get("needs").isBlank()
                            ? List.of()
                            : List.of(row.get("needs").split("\\|")),
                    words(row.get("applies_if") + " " + row.get("raised_when") + " " + row.get("trigger") + " "
                            + row.get("needs"))));
        }
    }

    private static Optional<Three> optional(String text) {
        return text.isBlank() ? Optional.empty() : Optional.of(Three.read(text));
    }

    private List<String> words(String text) {
        List<String> found = new ArrayList<>();
        Matcher matcher = Pattern.compile("[a-z0-9][a-z0-9-]+").matcher(text);
        while (matcher.find()) {
            if (findings.containsKey(matcher.group())) {
                found.add(matcher.group());
            } else if (terms.containsKey(matcher.group())) {
                String id = matcher.group();
                for (String table : List.of("red-flag-terms.csv", "terms.csv", "derived.csv")) {
                    Shipped.table(table).stream()
                            .filter(row -> row.get("id").equals(id))
                            .forEach(row -> found.addAll(words(row.get("means"))));
                }
            }
        }
        return found.stream().distinct().toList();
    }

    List<Row> rows() {
        return rows;
    }

    Map<String, Map<String, String>> findings() {
        return findings;
    }

    /** The state of every row: raised, open, cleared, not-applicable or not-triggered. */
    Map<String, String> states(Side painful, Map<String, Recorded> answers) {
        Patient patient = new Patient(painful, answers);
        Map<String, String> states = new LinkedHashMap<>();
        for (Row row : rows) {
            states.put(row.id(), state(row, patient));
        }
        return states;
    }

    /** Whether this row is raised. */
    boolean raises(Row row, Side painful, Map<String, Recorded> answers) {
        return state(row, new Patient(painful, answers)).equals("raised");
    }

    private String state(Row row, Patient patient) {
        int applies = row.appliesIf().map(patient::truth).orElse(1);
        int triggered = row.trigger().map(patient::truth).orElse(1);
        if (applies != -1 && patient.truth(row.raisedWhen()) == 1) {
            return "raised";
        }
        if (applies == -1) {
            return "not-applicable";
        }
        if (triggered == -1) {
            return "not-triggered";
        }
        if (row.needs().isEmpty()) {
            return "cleared";
        }
        return triggered == 0 || applies == 0 || !row.needs().stream().allMatch(patient::settled) ? "open" : "cleared";
    }

    /** The truth of a table's expression for these answers. */
    int truth(String expression, Side painful, Map<String, Recorded> answers) {
        return new Patient(painful, answers).truth(Three.read(expression));
    }

    /** One patient's answers, both legs. */
    private final class Patient implements Three.World {
        private final Side painful;
        private final Map<String, Recorded> answers;

        Patient(Side painful, Map<String, Recorded> answers) {
            this.painful = painful;
            this.answers = answers;
        }

        int truth(Three expression) {
            return expression.in(this);
        }

        /** What is left unknown where no answer settles a question: nothing, or no where it does not apply. */
        private int unsettled(String id) {
            return gates.containsKey(id) && truth(gates.get(id)) == -1 ? -1 : 0;
        }

        /** A sign on any leg counts; only answers for every painful leg rule it out. */
        private int anyLeg(String id, ToIntFunction<Answer> sign) {
            int answered = answers.containsKey(id) ? answeredOnAnyLeg(id, sign) : 0;
            return answered == 0 ? unsettled(id) : answered;
        }

        private int answeredOnAnyLeg(String id, ToIntFunction<Answer> sign) {
            int painfulLegs = -1;
            boolean somewhere = false;
            for (Side leg : List.of(Side.LEFT, Side.RIGHT)) {
                int here = answers.get(id).on(leg).map(sign::applyAsInt).orElse(0);
                somewhere |= here == 1;
                if (painful == leg || painful == Side.BOTH) {
                    painfulLegs = Math.max(painfulLegs, here);
                }
            }
            return somewhere ? 1 : painfulLegs;
        }

        @Override
        public int state(String id, String state) {
            if (terms.containsKey(id)) {
                int holds = truth(terms.get(id));
                return state.equals("absent") ? -holds : holds;
            }
            if (!findings.get(id).get("kind").equals("yes-no")) {
                return anyLeg(id, answer -> Three.of(answer.text().equals(state)));
            }
            int sign = sign(id);
            if (sign == 0) {
                return unsettled(id);
            }
            return state.equals(signOf(id)) ? sign : -sign;
        }

        private int sign(String id) {
            if (!answers.containsKey(id)) {
                return 0;
            }
            return answeredOnAnyLeg(
                    id,
                    answer -> answer.text().equals("unable")
                            ? 0
                            : Three.of(answer.text().equals(signOf(id))));
        }

        private String signOf(String id) {
            return findings.get(id).get("danger_when").equals("absent") ? "absent" : "present";
        }

        @Override
        public int number(String id, String sign, double cutOff) {
            return anyLeg(
                    id,
                    answer -> answer instanceof Answer.Quantity quantity
                            ? Three.of(Three.holds(quantity.value(), sign, cutOff))
                            : 0);
        }

        @Override
        public int sides(String id, String sign, double cutOff) {
            Optional<Double> left = value(id, Side.LEFT);
            Optional<Double> right = value(id, Side.RIGHT);
            if (left.isEmpty() || right.isEmpty()) {
                return unsettled(id);
            }
            double difference = left.get() - right.get();
            return Three.of(Three.holds(
                    painful == Side.LEFT ? difference : painful == Side.RIGHT ? -difference : Math.abs(difference),
                    sign,
                    cutOff));
        }

        private Optional<Double> value(String id, Side leg) {
            return Optional.ofNullable(answers.get(id))
                    .flatMap(recorded -> recorded.on(leg))
                    .map(answer -> ((Answer.Quantity) answer).value());
        }

        boolean settled(String id) {
            if (unsettled(id) == -1) {
                return true;
            }
            if (comparedBetweenSides.contains(id)) {
                return value(id, Side.LEFT).isPresent() && value(id, Side.RIGHT).isPresent();
            }
            return findings.get(id).get("kind").equals("yes-no") ? sign(id) != 0 : anyLeg(id, answer -> -1) == -1;
        }
    }
}
