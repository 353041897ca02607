package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.drill.DrillTables;
import org.gerdy.engine.drill.OrdinaryAnswers;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.Priors;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/**
 * Draws patients from a knowledge base's own numbers: a condition by the priors of a population, how it began and how long
 * ago as the practice tables say, its findings by the likelihood ratios, each number drawn afresh within its bounds,
 * findings of one cluster correlated, answers missing the more often the longer they take. No patient holds answers that
 * cannot stand together. Tests whether the knowledge base agrees with itself, never whether it is true.
 */
final class Patients {
    /** Section of the catalogue with what a patient brings along, whatever the complaint. */
    private static final String BACKGROUND = "context";

    /** How far findings of one cluster go together, 0 to 1. */
    private static final double WITHIN_CLUSTER = 0.5;
    /** How often a danger sign is there without the condition it points to. */
    private static final double STRAY_DANGER = 0.01;
    /** How often any other sign is there without one; overruled where both ratios of a row give it. */
    private static final double STRAY = 0.12;

    private static final double MISSING_AT_LEAST = 0.04;
    private static final double MISSING_PER_SECOND = 0.012;
    private static final double MISSING_WITH_EQUIPMENT = 0.8;
    private static final double MISSING_AT_MOST = 0.9;
    private static final int SETTINGS_TRIED = 4000;
    private static final int MENDED_AT_MOST = 40;
    private static final int STARTS_TRIED = 200;

    private final KnowledgeBase knowledge;
    private final DrillTables tables;
    private final ClashFinder clashes;
    private final Map<String, List<Map<String, Recorded>>> openings = new LinkedHashMap<>();
    private final Map<String, Map<String, EvidenceRow>> rows = new HashMap<>();
    private final Map<String, Double> stray = new HashMap<>();
    private final Map<String, List<Recorded>> wider = new LinkedHashMap<>();
    private final Map<String, List<ComputedFinding>> restingOn = new HashMap<>();
    private final Set<String> begin = new HashSet<>();
    private final Map<String, Integer> order = new HashMap<>();
    private final List<Condition> dangerous;

    Patients(KnowledgeBase knowledge, DrillTables tables) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.clashes = new ClashFinder(knowledge.terms());
        this.dangerous = knowledge.conditions().values().stream()
                .filter(Condition::mustNotMiss)
                .toList();
        knowledge.catalogue().findings().forEach(finding -> order.put(finding.id(), order.size()));
        for (EvidenceRow row : knowledge.evidence().rows()) {
            rows.computeIfAbsent(row.condition(), ignored -> new LinkedHashMap<>())
                    .put(row.finding(), row);
        }
        strayRates();
        widerAnswers();
        populations();
        begin.addAll(tables.words().values());
        places();
    }

    /**
     * One patient drawn.
     *
     * @param condition what they have
     * @param population where they come from
     * @param latent every answer they would give
     * @param given the answers that were asked
     */
    record Patient(String condition, String population, Map<String, Recorded> latent, Map<String, Recorded> given) {}

    /** Patient number {@code index} of the cohort of this seed. */
    Patient draw(long seed, long index, Optional<String> population) {
        Random random = random(seed, index);
        Began began = began(random, population);
        return patient(random, began, condition(random, began.population(), began.start()));
    }

    /**
     * Patient number {@code index} of a cohort in which every condition that must not be missed is as frequent as any
     * other. A condition nobody who comes in can have is left to the priors.
     */
    Patient drawDangerous(long seed, long index, Optional<String> population) {
        Random random = random(seed, index);
        Condition condition = dangerous.get((int) (index % dangerous.size()));
        for (int attempt = 0; attempt < STARTS_TRIED; attempt++) {
            Began began = began(random, population);
            Observations start = observations(began.start());
            if (condition.fitsAge(start) && canBegin(condition.id(), start)) {
                return patient(random, began, condition.id());
            }
        }
        return draw(seed, index, population);
    }

    private static Random random(long seed, long index) {
        return new Random(seed * 0x9E3779B97F4A7C15L + index * 0xBF58476D1CE4E5B9L);
    }

    /** Where somebody comes from and what they come in with. */
    private record Began(String population, Map<String, Recorded> start) {}

    private Began began(Random random, Optional<String> population) {
        List<String> all = List.copyOf(openings.keySet());
        String from = population.orElseGet(() -> all.get(random.nextInt(all.size())));
        List<Map<String, Recorded>> starts = openings.getOrDefault(from, List.of(Map.of()));
        return new Began(from, starts.get(random.nextInt(starts.size())));
    }

    private Patient patient(Random random, Began began, String condition) {
        Map<String, Recorded> start = began.start();
        Map<String, Recorded> latent = latent(random, condition, start);
        Map<String, Recorded> given = new LinkedHashMap<>();
        latent.forEach((id, answer) -> {
            if (start.containsKey(id) || random.nextDouble() >= missing(id)) {
                given.put(id, answer);
            }
        });
        return new Patient(condition, began.population(), latent, given);
    }

    /** What in a patient's answers speaks for what they have. */
    enum Shown {
        NOTHING,
        /** Only risks the patient brings along. */
        BACKGROUND,
        SIGNS
    }

    /**
     * Signs are there when a finding that speaks strongly for the condition is among the answers, or two that speak for it
     * moderately and rest on different facts. How and where it began does not count; every patient with it tells that. A
     * finding that is already there by what the patient brings along counts as background.
     */
    Shown shown(String condition, Map<String, Recorded> given) {
        Observations all = observations(given);
        if (!speaks(condition, all, finding -> true)) {
            return Shown.NOTHING;
        }
        Map<String, Recorded> brought = new LinkedHashMap<>(given);
        brought.keySet().removeIf(id -> !definition(id).section().equals(BACKGROUND));
        Observations background = observations(brought);
        return speaks(condition, all, finding -> background.is(finding, "present") != Truth.TRUE)
                ? Shown.SIGNS
                : Shown.BACKGROUND;
    }

    private boolean speaks(String condition, Observations observations, Predicate<String> counts) {
        double moderate = tables.settings().value("cohort-ratio-moderate");
        double strong = tables.settings().value("cohort-ratio-strong");
        Map<String, Double> best = new HashMap<>();
        for (EvidenceRow row : knowledge.evidence().about(condition)) {
            double ratio = row.whenPresent().map(EvidenceRow.Ratio::value).orElse(1.0);
            if (ratio >= moderate
                    && !told(row.finding())
                    && observations.is(row.finding(), "present") == Truth.TRUE
                    && counts.test(row.finding())) {
                best.merge(row.cluster().isEmpty() ? row.finding() : row.cluster(), ratio, Math::max);
            }
        }
        return best.size() > 1 || best.values().stream().anyMatch(ratio -> ratio >= strong);
    }

    private boolean told(String finding) {
        return begin.containsAll(knowledge.catalogue().askedBehind(finding));
    }

    private double missing(String id) {
        FindingDefinition finding = definition(id);
        return finding.equipment().isEmpty()
                ? Math.min(MISSING_AT_MOST, MISSING_AT_LEAST + MISSING_PER_SECOND * finding.seconds())
                : MISSING_WITH_EQUIPMENT;
    }

    private String condition(Random random, String population, Map<String, Recorded> start) {
        Observations observations = observations(start);
        Map<String, Double> weights = new LinkedHashMap<>();
        double sum = 0;
        for (Map.Entry<String, Priors.Prior> prior :
                knowledge.priors().of(population).entrySet()) {
            Condition condition = knowledge.condition(prior.getKey());
            if (condition.fitsAge(observations) && canBegin(condition.id(), observations)) {
                double odds = Math.exp(prior.getValue().logOdds()
                        + random.nextGaussian() * prior.getValue().deviation());
                double weight = odds / (1 + odds);
                weights.put(prior.getKey(), weight);
                sum += weight;
            }
        }
        double at = random.nextDouble() * sum;
        String last = "";
        for (Map.Entry<String, Double> weight : weights.entrySet()) {
            last = weight.getKey();
            at -= weight.getValue();
            if (at <= 0) {
                break;
            }
        }
        return last;
    }

    /** Whether somebody who came in like this can have it: of its sex, and injured where only an injury brings it on. */
    private boolean canBegin(String condition, Observations start) {
        return Optional.ofNullable(tables.profiles().get(condition))
                .filter(profile -> !profile.injury() || start.is(tables.word("injury"), "absent") != Truth.TRUE)
                .filter(profile -> profile.sex().isEmpty()
                        || start.recorded(tables.word("sex")).isEmpty()
                        || start.is(tables.word("sex"), profile.sex()) == Truth.TRUE)
                .isPresent();
    }

    /** What the patient came in with, and how and when the condition began where that leaves it open. */
    private Map<String, Recorded> begun(Random random, String condition, Map<String, Recorded> start) {
        DrillTables.Profile profile = Objects.requireNonNull(tables.profiles().get(condition));
        Map<String, Recorded> begun = new LinkedHashMap<>(start);
        begun.putIfAbsent(
                tables.word("injury"),
                AnswerSpace.recorded(
                        definition(tables.word("injury")),
                        profile.injury() ? Answer.State.PRESENT : Answer.State.ABSENT));
        begun.putIfAbsent(
                tables.word("onset"),
                AnswerSpace.recorded(definition(tables.word("onset")), new Answer.Choice(profile.onset())));
        int weeks = profile.weeksLow() + random.nextInt(profile.weeksHigh() - profile.weeksLow() + 1);
        begun.putIfAbsent(
                tables.word("duration"), AnswerSpace.recorded(definition(tables.word("duration")), quantity(weeks)));
        return begun;
    }

    private Map<String, Recorded> latent(Random random, String condition, Map<String, Recorded> start) {
        Map<String, EvidenceRow> evidence = rows.getOrDefault(condition, Map.of());
        Map<String, Double> clusters = new HashMap<>();
        Map<String, Recorded> latent = begun(random, condition, start);
        OrdinaryAnswers ordinary = ordinary(random);
        for (FindingDefinition finding : knowledge.catalogue().findings()) {
            if (latent.containsKey(finding.id())) {
                continue;
            }
            if (finding.kind() == Kind.YES_NO) {
                double chance = chance(random, finding, Optional.ofNullable(evidence.get(finding.id())));
                double z = random.nextGaussian();
                if (!finding.cluster().isEmpty()) {
                    double shared = clusters.computeIfAbsent(finding.cluster(), ignored -> random.nextGaussian());
                    z = Math.sqrt(WITHIN_CLUSTER) * shared + Math.sqrt(1 - WITHIN_CLUSTER) * z;
                }
                boolean there = normal(z) < chance;
                latent.put(
                        finding.id(),
                        AnswerSpace.recorded(finding, there ? Answer.State.PRESENT : Answer.State.ABSENT));
            } else if (wider.containsKey(finding.id())) {
                weighted(random, ordinary.ordinary(finding), finding.id(), evidence)
                        .ifPresent(answer -> latent.put(finding.id(), answer));
            }
        }
        settle(latent, start.keySet());
        return latent;
    }

    /** What makes no sense to ask is not answered, and what clashes with an earlier answer is turned round or left out. */
    private void settle(Map<String, Recorded> latent, Set<String> kept) {
        Set<String> turned = new HashSet<>(kept);
        for (int round = 0; round < MENDED_AT_MOST; round++) {
            Observations observations = observations(latent);
            boolean changed = latent.keySet()
                    .removeIf(id -> !kept.contains(id)
                            && definition(id)
                                    .onlyIf()
                                    .filter(gate -> gate.in(observations) == Truth.FALSE)
                                    .isPresent());
            for (ClashFinder.Found clash : clashes.clashes(observations(latent))) {
                Optional<String> wrong = clash.findings().stream()
                        .filter(id -> !kept.contains(id) && latent.containsKey(id))
                        .max(Comparator.comparing(order::get));
                wrong.ifPresent(id -> turn(latent, id, turned.add(id)));
                changed |= wrong.isPresent();
            }
            if (!changed) {
                return;
            }
        }
    }

    private void turn(Map<String, Recorded> latent, String id, boolean first) {
        FindingDefinition finding = definition(id);
        if (first && finding.kind() == Kind.YES_NO) {
            boolean there = observations(latent).is(id, "present") == Truth.TRUE;
            latent.put(id, AnswerSpace.recorded(finding, there ? Answer.State.ABSENT : Answer.State.PRESENT));
        } else {
            latent.remove(id);
        }
    }

    private OrdinaryAnswers ordinary(Random random) {
        return new OrdinaryAnswers(tables, knowledge.catalogue().comparedBetweenSides(), random, Side.LEFT);
    }

    private FindingDefinition definition(String id) {
        return knowledge.catalogue().finding(id).orElseThrow();
    }

    private double chance(Random random, FindingDefinition finding, Optional<EvidenceRow> row) {
        double by = stray.getOrDefault(finding.id(), STRAY);
        boolean reversed = finding.isReversed();
        double plain = reversed ? 1 - by : by;
        if (row.isEmpty()) {
            return plain;
        }
        double positive = drawn(random, row.get().whenPresent());
        double negative = drawn(random, row.get().whenAbsent());
        double chance;
        if (positive > 1 && negative < 1 && row.get().whenAbsent().isPresent()) {
            // Both ratios together give how often the finding is there with the condition.
            chance = positive * (1 - negative) / (positive - negative);
        } else if (row.get().whenPresent().isPresent()) {
            chance = positive * plain;
        } else {
            chance = 1 - negative * (1 - plain);
        }
        return Math.min(0.99, Math.max(0.002, chance));
    }

    private static double drawn(Random random, Optional<EvidenceRow.Ratio> ratio) {
        double z = random.nextGaussian();
        return ratio.map(one -> Math.exp(one.log() + z * one.standardError())).orElse(1.0);
    }

    /**
     * A choice or a number: the ordinary one unless it strays, each value the likelier the more the evidence about what
     * follows from it speaks for the condition.
     */
    private Optional<Recorded> weighted(
            Random random, Optional<Recorded> ordinary, String id, Map<String, EvidenceRow> evidence) {
        List<Recorded> values = new ArrayList<>(wider.getOrDefault(id, List.of()));
        ordinary.ifPresent(values::remove);
        double each = ordinary.isPresent() ? STRAY / Math.max(1, values.size()) : 1;
        ordinary.ifPresent(values::add);
        double[] weights = new double[values.size()];
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            weights[i] = ordinary.equals(Optional.of(values.get(i))) ? 1 : each;
            Observations alone = observations(Map.of(id, values.get(i)));
            for (ComputedFinding computed : restingOn.getOrDefault(id, List.of())) {
                EvidenceRow row = evidence.get(computed.id());
                Truth truth = alone.computed(computed.id());
                if (row != null && truth != Truth.UNKNOWN) {
                    weights[i] *= row.ratio(truth == Truth.TRUE)
                            .map(EvidenceRow.Ratio::value)
                            .orElse(1.0);
                }
            }
            sum += weights[i];
        }
        double at = random.nextDouble() * sum;
        for (int i = 0; i < weights.length; i++) {
            at -= weights[i];
            if (at <= 0) {
                return Optional.of(values.get(i));
            }
        }
        return Optional.empty();
    }

    private void strayRates() {
        Map<String, List<Double>> told = new HashMap<>();
        for (EvidenceRow row : knowledge.evidence().rows()) {
            if (row.whenPresent().isPresent() && row.whenAbsent().isPresent()) {
                double positive = row.whenPresent().get().value();
                double negative = row.whenAbsent().get().value();
                if (positive > 1 && negative < 1) {
                    told.computeIfAbsent(row.finding(), ignored -> new ArrayList<>())
                            .add((1 - negative) / (positive - negative));
                }
            }
        }
        for (FindingDefinition finding : knowledge.catalogue().findings()) {
            double rate = STRAY;
            if (!finding.dangerWhen().isEmpty()) {
                rate = STRAY_DANGER;
            } else if (told.containsKey(finding.id())) {
                List<Double> rates = told.get(finding.id()).stream().sorted().toList();
                rate = rates.get(rates.size() / 2);
            }
            stray.put(finding.id(), rate);
        }
    }

    /** Where it hurts first and second is told by every patient with a condition. */
    private void places() {
        Set<String> topics = tables.profiles().values().stream()
                .flatMap(profile -> profile.always().stream())
                .flatMap(fact -> fact.findings().stream())
                .flatMap(id -> knowledge.catalogue().finding(id).stream())
                .filter(finding -> finding.kind() == Kind.CHOICE)
                .map(FindingDefinition::topic)
                .collect(Collectors.toSet());
        knowledge.catalogue().findings().stream()
                .filter(finding -> topics.contains(finding.topic()))
                .forEach(finding -> begin.add(finding.id()));
    }

    /** Choices and numbers, with the values that anything read makes a difference of. */
    private void widerAnswers() {
        List<Expression> conditions = new ArrayList<>();
        knowledge.catalogue().computed().forEach(one -> conditions.add(one.means()));
        new AnswerSpace(knowledge.catalogue(), conditions).values().forEach((id, values) -> {
            FindingDefinition finding = definition(id);
            if (finding.kind() == Kind.CHOICE) {
                wider.put(
                        id,
                        finding.choices().stream()
                                .map(choice -> AnswerSpace.recorded(finding, new Answer.Choice(choice)))
                                .toList());
            } else if (finding.kind().isQuantity() && !values.isEmpty()) {
                wider.put(id, values);
            }
        });
        knowledge.catalogue().computed().forEach(computed -> {
            Set<String> asked = knowledge.catalogue().askedBehind(computed.id());
            asked.forEach(id ->
                    restingOn.computeIfAbsent(id, ignored -> new ArrayList<>()).add(computed));
        });
    }

    /** For each population, answers that put a patient in it. */
    private void populations() {
        List<Expression> conditions = knowledge.rules().values().stream()
                .filter(rule -> rule.text().contains("Population.use"))
                .map(RuleCard::logic)
                .flatMap(Optional::stream)
                .toList();
        AnswerSpace space =
                new AnswerSpace(knowledge.catalogue(), conditions).and(List.of(tables.word("age"), tables.word("sex")));
        LogicReasoner reasoner = new LogicReasoner(knowledge);
        Random random = new Random(7);
        for (int attempt = 0; attempt < SETTINGS_TRIED; attempt++) {
            Map<String, Recorded> answers = new LinkedHashMap<>();
            space.values().forEach((id, values) -> {
                Optional<Recorded> usual = definition(id).kind().isQuantity()
                        ? ordinary(random).ordinary(definition(id))
                        : Optional.empty();
                if (usual.isPresent() && random.nextBoolean()) {
                    answers.put(id, usual.get());
                } else if (!values.isEmpty()) {
                    answers.put(id, values.get(random.nextInt(values.size())));
                }
            });
            answers.put(tables.word("age"), new Recorded.Whole(quantity(8 + random.nextInt(72))));
            settle(answers, Set.of(tables.word("age")));
            String population = reasoner.screen("opening", observations(answers))
                    .population()
                    .id();
            openings.computeIfAbsent(population, ignored -> new ArrayList<>()).add(answers);
        }
    }

    Observations observations(Map<String, Recorded> answers) {
        return Observations.of(knowledge.catalogue(), Side.LEFT, answers);
    }

    private static Answer quantity(double number) {
        return new Answer.Quantity(number, Long.toString((long) number));
    }

    /** The normal distribution function by Abramowitz and Stegun 7.1.26 for the error function; error below 2e-7. */
    private static double normal(double z) {
        double x = Math.abs(z) / Math.sqrt(2);
        double t = 1 / (1 + 0.3275911 * x);
        double tail = t
                * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
                * Math.exp(-x * x);
        return z >= 0 ? 1 - tail / 2 : tail / 2;
    }
}
