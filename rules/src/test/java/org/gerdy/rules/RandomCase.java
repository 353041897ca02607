package org.gerdy.rules;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Pattern;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;

/** A made-up patient: sparse answers around a few rows of the table, numbers at the cut-offs, one side or both. */
record RandomCase(Side side, Map<String, Recorded> answers) {
    static final Oracle ORACLE = new Oracle();

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);
    private static final AtomicInteger NEXT = new AtomicInteger();
    private static final Map<String, Set<Double>> CUT_OFFS = cutOffs();
    private static final Map<String, Set<String>> NAMED_CHOICES = namedChoices();

    static Arbitrary<RandomCase> any() {
        return Arbitraries.randomValue(RandomCase::made);
    }

    CaseFile file() {
        return new CaseFile(
                "random",
                "",
                "",
                Map.of(),
                List.of(new Visit(DAY, side, answers, "", Optional.empty())),
                Optional.empty());
    }

    Assessment assessed() {
        return Shipped.GERDY.assess(file());
    }

    RandomCase with(String finding, Recorded answer) {
        Map<String, Recorded> changed = new LinkedHashMap<>(answers);
        changed.put(finding, answer);
        return new RandomCase(side, changed);
    }

    RandomCase without(String finding) {
        Map<String, Recorded> changed = new LinkedHashMap<>(answers);
        changed.remove(finding);
        return new RandomCase(side, changed);
    }

    RandomCase shuffled(Random random) {
        List<String> ids = new ArrayList<>(answers.keySet());
        Collections.shuffle(ids, random);
        Map<String, Recorded> changed = new LinkedHashMap<>();
        ids.forEach(id -> changed.put(id, answers.get(id)));
        return new RandomCase(side, changed);
    }

    RandomCase mirrored() {
        Map<String, Recorded> changed = new LinkedHashMap<>();
        answers.forEach((id, recorded) -> changed.put(
                id,
                recorded instanceof Recorded.Sides sides ? new Recorded.Sides(sides.right(), sides.left()) : recorded));
        return new RandomCase(side.other(), changed);
    }

    static Map<String, String> definition(String id) {
        return ORACLE.findings().get(id);
    }

    static boolean perSide(String id) {
        return definition(id).get("per_side").equals("yes");
    }

    /** Every row gets its turn: half the cases are drawn until one raises it, the rest are whatever comes. */
    static RandomCase made(Random random) {
        Oracle.Row target = ORACLE.rows()
                .get(Math.floorMod(NEXT.getAndIncrement(), ORACLE.rows().size()));
        boolean raise = random.nextInt(2) == 0;
        RandomCase drawn = drawn(random, target);
        for (int i = 0; raise && i < 400 && !ORACLE.raises(target, drawn.side(), drawn.answers()); i++) {
            drawn = drawn(random, target);
        }
        return drawn;
    }

    private static RandomCase drawn(Random random, Oracle.Row target) {
        Side side = Side.values()[random.nextInt(10) < 4 ? 0 : random.nextInt(3)];
        Map<String, Recorded> answers = new LinkedHashMap<>();
        Set<String> asked = new LinkedHashSet<>();
        double density = List.of(0.4, 0.7, 1.0).get(random.nextInt(3));
        double danger = List.of(0.1, 0.5, 0.8).get(random.nextInt(3));
        for (Oracle.Row row :
                List.of(target, ORACLE.rows().get(random.nextInt(ORACLE.rows().size())))) {
            for (String id : row.mentions()) {
                if (random.nextDouble() < density) {
                    asked.add(id);
                }
            }
        }
        List<String> all = new ArrayList<>(ORACLE.findings().keySet());
        for (int i = random.nextInt(10); i > 0; i--) {
            asked.add(all.get(random.nextInt(all.size())));
        }
        if (random.nextBoolean()) {
            asked.addAll(List.of("age", "acute-injury"));
        }
        asked.forEach(id -> recorded(id, side, danger, random).ifPresent(recorded -> answers.put(id, recorded)));
        return new RandomCase(side, answers);
    }

    private static Optional<Recorded> recorded(String id, Side side, double danger, Random random) {
        if (!perSide(id)) {
            return answer(id, danger, random).map(Recorded.Whole::new);
        }
        boolean left = side == Side.LEFT;
        boolean right = side == Side.RIGHT;
        switch (random.nextInt(6)) {
            case 0 -> {
                left = !left;
                right = !right;
            }
            case 1, 2 -> {
                left = true;
                right = true;
            }
            default -> {
                left |= side == Side.BOTH;
                right |= side == Side.BOTH && random.nextInt(5) > 0;
            }
        }
        Optional<Answer> onLeft = left ? answer(id, danger, random) : Optional.empty();
        Optional<Answer> onRight = right ? answer(id, danger, random) : Optional.empty();
        return onLeft.isEmpty() && onRight.isEmpty()
                ? Optional.empty()
                : Optional.of(new Recorded.Sides(onLeft, onRight));
    }

    private static Optional<Answer> answer(String id, double danger, Random random) {
        Map<String, String> definition = definition(id);
        return switch (definition.get("kind")) {
            case "yes-no" -> {
                boolean sign = random.nextDouble() < danger;
                boolean present = sign != definition.get("danger_when").equals("absent");
                yield Optional.of(
                        random.nextInt(12) == 0
                                ? Answer.State.UNABLE
                                : present ? Answer.State.PRESENT : Answer.State.ABSENT);
            }
            case "choice" -> {
                List<String> choices = List.of(definition.get("choices").split("\\|"));
                List<String> named = List.copyOf(NAMED_CHOICES.getOrDefault(id, Set.of()));
                yield Optional.of(new Answer.Choice(
                        !named.isEmpty() && random.nextInt(10) < 6
                                ? named.get(random.nextInt(named.size()))
                                : choices.get(random.nextInt(choices.size()))));
            }
            case "date" -> Optional.of(new Answer.Day(DAY.minusDays(random.nextInt(60))));
            default -> Optional.of(number(id, random));
        };
    }

    private static Answer number(String id, Random random) {
        double low = Double.parseDouble("0" + definition(id).get("min").replaceFirst("^-.*", ""));
        double high = definition(id).get("max").isBlank()
                ? 10
                : Double.parseDouble(definition(id).get("max"));
        List<Double> cutOffs = List.copyOf(CUT_OFFS.getOrDefault(id, Set.of()));
        double value = cutOffs.isEmpty() || random.nextInt(8) == 0
                ? low + Math.rint(random.nextDouble() * Math.min(high - low, 100))
                : cutOffs.get(random.nextInt(cutOffs.size()))
                        + List.of(-1.0, -0.01, 0.0, 0.01, 1.0).get(random.nextInt(5));
        double kept = Math.max(low, Math.min(high, value));
        return new Answer.Quantity(kept, Double.toString(kept));
    }

    private static String expressions() {
        StringBuilder all = new StringBuilder();
        for (String[] column : new String[][] {
            {"findings.csv", "only_if"},
            {"red-flag-terms.csv", "means"},
            {"terms.csv", "means"},
            {"derived.csv", "means"},
            {"red-flags.csv", "raised_when"},
            {"red-flags.csv", "applies_if"},
            {"red-flags.csv", "trigger"}
        }) {
            Shipped.table(column[0])
                    .forEach(row -> all.append(row.get(column[1])).append('\n'));
        }
        return all.toString();
    }

    private static Map<String, Set<Double>> cutOffs() {
        Map<String, Set<Double>> found = new LinkedHashMap<>();
        Pattern.compile("([a-z][a-z0-9-]+)(?:>=|<=|>|<|=)(-?[0-9]+(?:\\.[0-9]+)?)")
                .matcher(expressions())
                .results()
                .forEach(match -> found.computeIfAbsent(match.group(1), ignored -> new TreeSet<>())
                        .add(Double.parseDouble(match.group(2))));
        // Two legs that differ by exactly the limit, a little less and a little more.
        found.put("calf-circumference", new TreeSet<>(List.of(35.0, 38.0, 36.0, 39.0)));
        return found;
    }

    private static Map<String, Set<String>> namedChoices() {
        Map<String, Set<String>> found = new LinkedHashMap<>();
        Pattern.compile("([a-z][a-z0-9-]+)=([a-z][a-z0-9-]+)")
                .matcher(expressions())
                .results()
                .forEach(match -> found.computeIfAbsent(match.group(1), ignored -> new TreeSet<>())
                        .add(match.group(2)));
        return found;
    }

    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(side.word());
        answers.forEach(
                (id, recorded) -> text.append("\n  ").append(id).append(": ").append(shown(recorded)));
        return text.toString();
    }

    private static String shown(Recorded recorded) {
        return recorded instanceof Recorded.Sides sides
                ? "{left: " + sides.left().map(Answer::text).orElse("-") + ", right: "
                        + sides.right().map(Answer::text).orElse("-") + "}"
                : recorded.on(Side.LEFT).map(Answer::text).orElse("-");
    }

    /** The smallest part of this case that still fails, by leaving out one answer at a time. */
    RandomCase smallest(java.util.function.Predicate<RandomCase> fails) {
        RandomCase now = this;
        boolean smaller = true;
        while (smaller) {
            smaller = false;
            for (String id : List.copyOf(now.answers.keySet())) {
                if (fails.test(now.without(id))) {
                    now = now.without(id);
                    smaller = true;
                }
            }
        }
        return now;
    }
}
