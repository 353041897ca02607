package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * Makes patients from the evidence table: the same number gives the same patient. A condition that this age or sex cannot
 * have is never drawn, and no patient holds answers that cannot stand together. For one thread.
 */
public final class PatientMaker {
    private static final List<Difficulty> DIFFICULTIES = List.of(Difficulty.values());

    private final KnowledgeBase knowledge;
    private final DrillTables tables;
    private final FactorTables factors;
    private final LogicReasoner reasoner;
    private final List<String> conditions;
    private final Set<String> needed = new LinkedHashSet<>();
    private final Set<String> compared = new LinkedHashSet<>();

    /** A maker over this knowledge base. */
    public PatientMaker(KnowledgeBase knowledge, DrillTables tables, FactorTables factors) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.factors = factors;
        this.reasoner = new LogicReasoner(knowledge);
        compared.addAll(knowledge.catalogue().comparedBetweenSides());
        factors.measures().values().forEach(measure -> measure.finding().ifPresent(compared::add));
        this.conditions = List.copyOf(tables.profiles().keySet());
        for (RedFlagRow row : knowledge.redFlags()) {
            needed.addAll(row.needs());
            needed.addAll(knowledge.catalogue().askedBehind(row.raisedWhen()));
            row.appliesIf()
                    .ifPresent(gate -> needed.addAll(knowledge.catalogue().askedBehind(gate)));
            row.trigger()
                    .ifPresent(trigger -> needed.addAll(knowledge.catalogue().askedBehind(trigger)));
        }
    }

    /** What a number stands for. */
    public record Draw(String condition, Difficulty difficulty) {}

    /** The conditions patients are made of, in table order. */
    public List<String> conditions() {
        return conditions;
    }

    /** What this number draws. */
    public Draw draw(long seed) {
        Random random = random(seed);
        String condition = conditions.get(random.nextInt(conditions.size()));
        return new Draw(condition, DIFFICULTIES.get(random.nextInt(DIFFICULTIES.size())));
    }

    /** The first number from {@code from} on that draws this condition at this difficulty. */
    public long seed(String condition, Difficulty difficulty, long from) {
        if (!conditions.contains(condition)) {
            throw new IllegalArgumentException("No patient can be made with '" + condition + "'.");
        }
        Draw wanted = new Draw(condition, difficulty);
        long seed = from;
        while (!draw(seed).equals(wanted)) {
            seed++;
        }
        return seed;
    }

    /** The generator's own scrambling makes neighbouring numbers alike, so the number is stirred first (Steele 2014). */
    static Random random(long seed) {
        long stirred = (seed ^ (seed >>> 30)) * 0xbf58476d1ce4e5b9L;
        stirred = (stirred ^ (stirred >>> 27)) * 0x94d049bb133111ebL;
        return new Random(stirred ^ (stirred >>> 31));
    }

    /** Findings whose number is taken on both legs. */
    Set<String> compared() {
        return compared;
    }

    /** The patient of this number. */
    public DrillPatient make(long seed) {
        Draw draw = draw(seed);
        Random random = random(seed ^ 0x5deece66dL);
        DrillTables.Profile profile = profile(draw.condition());
        Optional<DrillTables.Profile> second =
                draw.difficulty() == Difficulty.TWO_AT_ONCE ? second(profile, random) : Optional.empty();
        int low = Math.max(
                profile.ageLow(), second.map(DrillTables.Profile::ageLow).orElse(0));
        int high = Math.min(
                profile.ageHigh(), second.map(DrillTables.Profile::ageHigh).orElse(200));
        int age = low + random.nextInt(high - low + 1);
        String sex = sex(profile, second, random);
        String activity =
                profile.activities().get(random.nextInt(profile.activities().size()));
        int weeks = profile.weeksLow() + random.nextInt(profile.weeksHigh() - profile.weeksLow() + 1);
        Side side = random.nextBoolean() ? Side.LEFT : Side.RIGHT;
        Map<String, Recorded> given = new LinkedHashMap<>();
        given.put(tables.word("age"), whole("age", age));
        given.put(tables.word("sex"), new Recorded.Whole(new Answer.Choice(sex)));
        given.put(tables.word("activity"), new Recorded.Whole(new Answer.Choice(activity)));
        Map<String, Recorded> known = new LinkedHashMap<>(given);
        known.put(tables.word("onset"), new Recorded.Whole(new Answer.Choice(profile.onset())));
        known.put(tables.word("duration"), whole("duration", weeks));
        known.put(
                tables.word("injury"),
                new Recorded.Whole(profile.injury() ? Answer.State.PRESENT : Answer.State.ABSENT));
        Sketch sketch =
                new Sketch(knowledge, tables, compared, random, Observations.of(knowledge.catalogue(), side, known));
        profile.always().forEach(sketch::add);
        show(sketch, draw, random, second.map(DrillTables.Profile::condition));
        sketch.fill();
        Map<String, Recorded> answers = new LinkedHashMap<>(sketch.now().recorded());
        Set<String> cannotSay = new LinkedHashSet<>();
        if (draw.difficulty() == Difficulty.MISSING_ANSWERS) {
            miss(answers, cannotSay, known.keySet(), random);
        }
        List<String> causes = new ArrayList<>(List.of(draw.condition()));
        second.ifPresent(other -> causes.add(other.condition()));
        return new DrillPatient(
                Long.toString(seed),
                List.copyOf(causes),
                draw.difficulty().word(),
                OptionalLong.of(seed),
                side,
                opening(profile.onset(), side, weeks),
                Collections.unmodifiableMap(given),
                Collections.unmodifiableMap(answers),
                Set.copyOf(cannotSay));
    }

    private DrillTables.Profile profile(String condition) {
        return Optional.ofNullable(tables.profiles().get(condition)).orElseThrow();
    }

    private Recorded whole(String role, int value) {
        return new Recorded.Whole(OrdinaryAnswers.quantity(
                value, knowledge.catalogue().finding(tables.word(role)).orElseThrow()));
    }

    String opening(String onset, Side side, int weeks) {
        String time = weeks == 1
                ? "a week"
                : weeks < 52 ? weeks + " weeks" : weeks / 52 == 1 ? "a year" : weeks / 52 + " years";
        return Optional.ofNullable(tables.openings().get(onset))
                .orElseThrow()
                .replace("{side}", side.word())
                .replace("{weeks}", time);
    }

    private static String sex(DrillTables.Profile profile, Optional<DrillTables.Profile> second, Random random) {
        String drawn = random.nextBoolean() ? "female" : "male";
        return java.util.stream.Stream.concat(java.util.stream.Stream.of(profile), second.stream())
                .map(DrillTables.Profile::sex)
                .filter(one -> !one.isEmpty())
                .findFirst()
                .orElse(drawn);
    }

    /** Another condition this patient could have as well. */
    private Optional<DrillTables.Profile> second(DrillTables.Profile profile, Random random) {
        List<DrillTables.Profile> possible = tables.profiles().values().stream()
                .filter(other -> !other.condition().equals(profile.condition())
                        && other.injury() == profile.injury()
                        && Math.max(other.ageLow(), profile.ageLow()) <= Math.min(other.ageHigh(), profile.ageHigh())
                        && (other.sex().isEmpty()
                                || profile.sex().isEmpty()
                                || other.sex().equals(profile.sex()))
                        && !knowledge.condition(other.condition()).mustNotMiss())
                .toList();
        return possible.isEmpty() ? Optional.empty() : Optional.of(possible.get(random.nextInt(possible.size())));
    }

    private void show(Sketch sketch, Draw draw, Random random, Optional<String> second) {
        List<EvidenceRow> signs = signs(draw.condition());
        boolean atypical = draw.difficulty() == Difficulty.ATYPICAL;
        int skip = atypical ? (int) number("atypical-left-out") : 0;
        int most = (int) number(atypical ? "signs-atypical" : "signs-textbook");
        show(sketch, signs.subList(Math.min(skip, signs.size()), signs.size()), most, random);
        second.ifPresent(other -> show(sketch, signs(other), (int) number("signs-second"), random));
        if (draw.difficulty() == Difficulty.RED_HERRING) {
            mislead(sketch, draw.condition(), random);
        }
        List<FactorDefinition> possible = new ArrayList<>(factors.factors().stream()
                .filter(factor -> factor.presentWhen().isPresent())
                .toList());
        Collections.shuffle(possible, random);
        possible.stream()
                .limit(random.nextInt(3))
                .forEach(factor -> unlessUrgent(sketch, factor.presentWhen().orElseThrow()));
    }

    private void show(Sketch sketch, List<EvidenceRow> signs, int most, Random random) {
        int shown = 0;
        for (EvidenceRow sign : signs) {
            double ratio = sign.whenPresent().orElseThrow().value();
            double chance = number(
                    ratio >= number("sign-ratio-strong")
                            ? "sign-chance-strong"
                            : ratio >= number("sign-ratio-moderate") ? "sign-chance-moderate" : "sign-chance-weak");
            if (shown < most
                    && random.nextDouble() < chance
                    && sketch.add(new Expression.Is(sign.finding(), "present"))) {
                shown++;
            }
        }
    }

    /** What speaks for a condition, strongest first. */
    private List<EvidenceRow> signs(String condition) {
        return knowledge.evidence().about(condition).stream()
                .filter(row ->
                        row.whenPresent().filter(ratio -> ratio.value() > 1).isPresent())
                .sorted(Comparator.comparingDouble((EvidenceRow row) ->
                                -row.whenPresent().orElseThrow().value())
                        .thenComparing(EvidenceRow::finding))
                .toList();
    }

    private void mislead(Sketch sketch, String condition, Random random) {
        List<String> others = new ArrayList<>(conditions);
        others.remove(condition);
        String other = others.get(random.nextInt(others.size()));
        int shown = 0;
        for (EvidenceRow sign : signs(other)) {
            if (shown < (int) number("herring-signs")
                    && knowledge.evidence().about(condition).stream()
                            .noneMatch(row -> row.finding().equals(sign.finding()))
                    && unlessUrgent(sketch, new Expression.Is(sign.finding(), "present"))) {
                shown++;
            }
        }
    }

    /** Adds what does not make the patient more urgent. */
    private boolean unlessUrgent(Sketch sketch, Expression sign) {
        Optional<Urgency> before = raised(sketch);
        Runnable back = sketch.mark();
        if (!sketch.add(sign)) {
            return false;
        }
        if (raised(sketch).equals(before)) {
            return true;
        }
        back.run();
        return false;
    }

    private Optional<Urgency> raised(Sketch sketch) {
        return reasoner.assess("making", sketch.now()).raisedFlags().stream()
                .flatMap(flag -> flag.urgency().stream())
                .max(Urgency::compareTo);
    }

    private void miss(Map<String, Recorded> answers, Set<String> cannotSay, Set<String> told, Random random) {
        for (String id : List.copyOf(answers.keySet())) {
            if (!needed.contains(id) && !told.contains(id) && random.nextDouble() < number("missing-chance")) {
                cannotSay.add(id);
                answers.remove(id);
            }
        }
    }

    private double number(String name) {
        return tables.settings().value(name);
    }
}
