package org.gerdy.engine.audit;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.CaseReader;
import org.gerdy.engine.casefile.ClashFinder;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.engine.reasoning.LogicReasoner;

/**
 * Writes, for slips nobody would notice, the smallest case that would: the answers that tell the slip, and what the
 * knowledge base says of them now. A draft says what is, not what is right; a clinician reads it before it counts.
 */
public final class Drafts {
    private static final String EVIDENCE = "evidence ";
    private static final String NEED = "need forgotten: ";
    private static final int TRIES = 1500;
    private static final int LOOKS = 30;

    private final KnowledgeBase knowledge;
    private final PlanTables tables;
    private final List<Map<String, Recorded>> known;
    private final CaseReader reader;
    private final ClashFinder clashes;
    private final RowSearch search;
    private final Set<String> taken;
    private final Map<String, Map<String, String>> files = new TreeMap<>();

    private Drafts(KnowledgeBase knowledge, PlanTables tables, List<Map<String, Recorded>> known, Set<String> taken) {
        this.knowledge = knowledge;
        this.tables = tables;
        this.known = known;
        this.taken = new HashSet<>(taken);
        this.reader = new CaseReader(knowledge.terms());
        this.clashes = new ClashFinder(knowledge.terms());
        this.search = new RowSearch(knowledge);
    }

    /**
     * What was drafted.
     *
     * @param files the lines of each file, cases as JSON, by file name
     * @param untold slips for which no telling answers were found
     */
    public record Drafted(Map<String, List<String>> files, List<Mutant> untold) {}

    /** Drafts cases for the survivors, on all cores; answers of the cases there are tell what a search does not find. */
    public static Drafted of(
            KnowledgeBase knowledge,
            PlanTables tables,
            List<Mutation.Outcome> survivors,
            List<AuditCase> cases,
            Watcher watcher) {
        List<Map<String, Recorded>> known = cases.stream()
                .filter(one -> one.caseFile().latest().side() == Side.LEFT)
                .map(one -> one.observations(knowledge.terms()).recorded())
                .toList();
        Set<String> taken = cases.stream().map(AuditCase::id).collect(Collectors.toUnmodifiableSet());
        Map<String, List<Mutant>> byPlace = new LinkedHashMap<>();
        survivors.forEach(outcome -> byPlace.computeIfAbsent(subject(outcome.mutant()), ignored -> new ArrayList<>())
                .add(outcome.mutant()));
        List<Drafts> parts = new ArrayList<>();
        List<List<Mutant>> untold;
        try (Watcher.Steps steps = watcher.begin("Survivors", survivors.size())) {
            untold = byPlace.values().parallelStream()
                    .map(mutants -> {
                        Drafts drafts = new Drafts(knowledge, tables, known, taken);
                        synchronized (parts) {
                            parts.add(drafts);
                        }
                        List<Mutant> left = drafts.draft(mutants);
                        steps.done(mutants.size());
                        return left;
                    })
                    .toList();
        }
        Map<String, List<String>> files = new TreeMap<>();
        Map<String, Map<String, String>> merged = new TreeMap<>();
        parts.forEach(part -> part.files.forEach((file, lines) ->
                merged.computeIfAbsent(file, ignored -> new TreeMap<>()).putAll(lines)));
        merged.forEach((file, lines) -> files.put(file, List.copyOf(lines.values())));
        return new Drafted(files, untold.stream().flatMap(List::stream).toList());
    }

    /** All slips about one finding's evidence are told by the same cases, and so are those of the plan. */
    private static String subject(Mutant mutant) {
        if (mutant.group() == Mutant.Group.PLAN) {
            return "plan";
        }
        return mutant.place().startsWith(EVIDENCE) ? mutant.place().split(" for ", 2)[0] : mutant.place();
    }

    private List<Mutant> draft(List<Mutant> mutants) {
        if (mutants.get(0).place().startsWith(EVIDENCE)) {
            return evidence(subject(mutants.get(0)), mutants);
        }
        if (mutants.get(0).group() == Mutant.Group.PLAN) {
            return plan(mutants);
        }
        List<Mutant> untold = new ArrayList<>();
        LogicReasoner now = new LogicReasoner(knowledge);
        List<AuditCase> drafted = new ArrayList<>();
        for (Mutant mutant : mutants) {
            if (!drafted.isEmpty() && Mutation.caught(knowledge, tables, mutant, drafted)) {
                continue;
            }
            Optional<Telling> telling = telling(mutant, now);
            if (telling.isEmpty()) {
                untold.add(mutant);
                continue;
            }
            drafted.add(add(id(mutant.place()), mutant, telling.get()));
        }
        return untold;
    }

    /** Patients that tell many slips of the plan at once, each with its whole plan. */
    private List<Mutant> plan(List<Mutant> mutants) {
        List<Mutant> untold = new ArrayList<>(mutants);
        for (PlanDrafts.Patient patient : new PlanDrafts(knowledge, tables, known).patients(mutants)) {
            add(id("plan"), patient.tells().get(0), new Telling(patient.answers(), patient.expect()));
            untold.removeAll(patient.tells());
        }
        return untold;
    }

    /** One case with the finding present and one with it absent, each with all it speaks for and against. */
    private List<Mutant> evidence(String subject, List<Mutant> mutants) {
        String finding = subject.substring(EVIDENCE.length());
        LogicReasoner now = new LogicReasoner(knowledge);
        List<AuditCase> drafted = new ArrayList<>();
        for (String state : List.of("present", "absent")) {
            answered(finding, state).ifPresent(answers -> {
                Map<String, List<String>> expect = new LinkedHashMap<>();
                for (String one : Tells.spoken(now.assess("draft", observations(answers)))) {
                    String[] parts = one.split(" ", 3);
                    if (parts[2].equals(finding)) {
                        Tells.put(expect, parts[0], parts[1] + "=" + finding);
                    }
                }
                if (!expect.isEmpty()) {
                    String id = id(subject + " " + state);
                    drafted.add(add(id, mutants.get(0), new Telling(answers, expect)));
                }
            });
        }
        return mutants.stream()
                .filter(mutant -> !Mutation.caught(knowledge, tables, mutant, drafted))
                .toList();
    }

    /** The fewest answers that put a finding in a state. */
    private Optional<Map<String, Recorded>> answered(String finding, String state) {
        Expression wanted = new Expression.Is(finding, state);
        AnswerSpace space = new AnswerSpace(knowledge.catalogue(), List.of(wanted));
        List<String> ids = List.copyOf(space.values().keySet());
        Random random = new Random(finding.hashCode());
        for (int attempt = 0; attempt < TRIES; attempt++) {
            Map<String, Recorded> answers = new LinkedHashMap<>();
            for (String id : ids) {
                List<Recorded> values = space.values().getOrDefault(id, List.of());
                if (!values.isEmpty() && random.nextInt(4) > 0) {
                    answers.put(id, values.get(random.nextInt(values.size())));
                }
            }
            if (wanted.in(observations(answers)) == Truth.TRUE
                    && clashes.clashes(observations(answers)).isEmpty()) {
                for (String id : ids) {
                    Map<String, Recorded> fewer = new LinkedHashMap<>(answers);
                    fewer.remove(id);
                    if (!fewer.isEmpty() && wanted.in(observations(fewer)) == Truth.TRUE) {
                        answers = fewer;
                    }
                }
                return Optional.of(answers);
            }
        }
        return Optional.empty();
    }

    private AuditCase add(String id, Mutant mutant, Telling telling) {
        String line = DraftLine.line(id, mutant.place(), observations(telling.answers()), telling.expect());
        try {
            AuditCase drafted = new AuditCase(id, reader.read(id, line.getBytes(StandardCharsets.UTF_8)));
            files.computeIfAbsent(file(mutant), ignored -> new TreeMap<>()).put(id, line);
            return drafted;
        } catch (MendableException e) {
            throw new IllegalStateException("A drafted case cannot be read: " + e.getMessage(), e);
        }
    }

    /** An id no case has yet. */
    private String id(String place) {
        for (int next = 1; ; next++) {
            String id = numbered(place, next);
            if (taken.add(id)) {
                return id;
            }
        }
    }

    private static String numbered(String place, int number) {
        String plain = place.toLowerCase(java.util.Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-+|-+$", "");
        String tail = "-" + number;
        int room = 80 - "pin-".length() - tail.length();
        if (plain.length() > room) {
            String digest = Integer.toHexString(plain.hashCode());
            plain = plain.substring(0, room - digest.length() - 1) + "-" + digest;
        }
        return "pin-" + plain + tail;
    }

    private static String file(Mutant mutant) {
        return switch (mutant.group()) {
            case RED_FLAGS -> "red-flags.jsonl";
            case REFERRALS -> "referrals.jsonl";
            case CANDIDATES -> "candidates.jsonl";
            case INSTRUMENTS -> "instruments.jsonl";
            case FACTORS -> "factors.jsonl";
            case PLAN -> "plan.jsonl";
            case QUESTIONS -> "questions.jsonl";
        };
    }

    /** Answers that tell a slip, and the names of the conclusions that change. */
    private record Telling(Map<String, Recorded> answers, Map<String, List<String>> expect) {}

    private Optional<Telling> telling(Mutant mutant, LogicReasoner now) {
        LogicReasoner slipped = new LogicReasoner(mutant.variant().get());
        AnswerSpace space = new AnswerSpace(knowledge.catalogue(), mutant.conditions()).and(mutant.needs());
        gates(space);
        Combinations anything = new Combinations(space);
        List<String> ids = anything.findings();
        Random random =
                new Random(mutant.place().hashCode() * 31L + mutant.change().hashCode());
        boolean candidates = mutant.group() != Mutant.Group.RED_FLAGS && mutant.group() != Mutant.Group.QUESTIONS;
        int looks = 0;
        for (int attempt = 0; attempt < (ids.isEmpty() ? 0 : TRIES) && looks < LOOKS; attempt++) {
            Map<String, Recorded> answers = attempt % 2 == 0
                    ? nearlyBenign(space, ids, random)
                    : anything.drawn(random, random.nextDouble() * 0.8);
            if (mutant.change().startsWith(NEED)) {
                answers.remove(mutant.change().substring(NEED.length()));
            }
            Optional<Map<String, List<String>>> expect = told(mutant, answers, now, slipped, candidates);
            looks += expect.isPresent() ? 1 : 0;
            if (expect.isPresent() && !expect.get().isEmpty()) {
                return Optional.of(smallest(answers, expect.get(), now, slipped, candidates));
            }
        }
        for (Map<String, Recorded> answers : known) {
            Optional<Map<String, List<String>>> expect = told(mutant, answers, now, slipped, candidates);
            if (expect.isPresent() && !expect.get().isEmpty()) {
                return Optional.of(smallest(answers, expect.get(), now, slipped, candidates));
            }
        }
        return mutant.group() == Mutant.Group.RED_FLAGS
                ? search.search(mutant)
                        .telling()
                        .map(answers -> new Telling(
                                answers,
                                told(mutant, answers, now, slipped, false).orElse(Map.of())))
                        .filter(found -> !found.expect().isEmpty())
                        .map(found -> smallest(found.answers(), found.expect(), now, slipped, false))
                : Optional.empty();
    }

    /** What a case with these answers would have to expect; empty when they cannot differ or clash. */
    private Optional<Map<String, List<String>>> told(
            Mutant mutant,
            Map<String, Recorded> answers,
            LogicReasoner now,
            LogicReasoner slipped,
            boolean candidates) {
        Observations observations = observations(answers);
        if (!mutant.mayDiffer().test(new Look(observations, () -> assess(now, observations, candidates)))
                || !clashes.clashes(observations).isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                Tells.expect(assess(now, observations, candidates), assess(slipped, observations, candidates)));
    }

    /** Everything answered and nothing wrong, but for a few answers changed and a few not given. */
    private Map<String, Recorded> nearlyBenign(AnswerSpace space, List<String> ids, Random random) {
        Map<String, Recorded> answers = new LinkedHashMap<>();
        double changed = random.nextDouble() * 0.5;
        for (String id : ids) {
            List<Recorded> values = space.values().getOrDefault(id, List.of());
            if (!values.isEmpty()) {
                String danger = knowledge.catalogue().finding(id).orElseThrow().dangerWhen();
                Recorded benign = values.get(danger.equals("absent") ? 0 : values.size() - 1);
                answers.put(id, random.nextDouble() < changed ? values.get(random.nextInt(values.size())) : benign);
            }
        }
        for (int out = random.nextInt(3); out > 0; out--) {
            answers.remove(ids.get(random.nextInt(ids.size())));
        }
        return answers;
    }

    private void gates(AnswerSpace space) {
        Set<String> gates = new java.util.LinkedHashSet<>();
        for (String id : space.values().keySet()) {
            knowledge.catalogue().finding(id).orElseThrow().onlyIf().ifPresent(gate -> gates.addAll(gate.findings()));
        }
        space.and(gates);
    }

    private static Assessment assess(LogicReasoner reasoner, Observations observations, boolean candidates) {
        return candidates ? reasoner.assess("draft", observations) : reasoner.screen("draft", observations);
    }

    private Observations observations(Map<String, Recorded> answers) {
        return Observations.of(knowledge.catalogue(), Side.LEFT, answers);
    }

    /** Takes answers away as long as the same slip is told by the same expectation. */
    private Telling smallest(
            Map<String, Recorded> answers,
            Map<String, List<String>> first,
            LogicReasoner now,
            LogicReasoner slipped,
            boolean candidates) {
        Map<String, Recorded> kept = new LinkedHashMap<>(answers);
        Map<String, List<String>> expect = first;
        String field = first.keySet().iterator().next();
        for (String id : List.copyOf(answers.keySet())) {
            Map<String, Recorded> fewer = new LinkedHashMap<>(kept);
            fewer.remove(id);
            Observations observations = observations(fewer);
            Map<String, List<String>> still =
                    Tells.expect(assess(now, observations, candidates), assess(slipped, observations, candidates));
            if (still.containsKey(field) && clashes.clashes(observations).isEmpty()) {
                kept = fewer;
                expect = still;
            }
        }
        return new Telling(kept, expect);
    }
}
