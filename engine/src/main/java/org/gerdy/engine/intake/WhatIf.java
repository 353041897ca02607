package org.gerdy.engine.intake;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Outlook;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.reasoning.Consultation;
import org.gerdy.engine.reasoning.Probe;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * What would change at one visit if an answer did, found by running the rules under each. For one thread; close it when
 * done.
 */
public final class WhatIf implements AutoCloseable {
    /** How an answer that is not there is told. */
    public static final String NOT_ASKED = "not asked";

    /** Sets shown at most. */
    private static final int MOST_SETS = 3;

    private final KnowledgeBase knowledge;
    private final PossibleAnswers answers;
    private final Consultation consultation;
    private final Probe probe;

    /** Over what is known at this visit. */
    public WhatIf(Gerdy gerdy, CaseFile caseFile, Visit visit) {
        this.knowledge = gerdy.knowledge();
        this.answers = new PossibleAnswers(knowledge);
        this.consultation = gerdy.consult(caseFile, visit);
        this.probe = new Probe(knowledge, consultation.observations());
    }

    /** What is known. */
    public Observations observations() {
        return consultation.observations();
    }

    /** What follows from it. */
    public Assessment assess() {
        return consultation.assess();
    }

    /** What would follow from other observations. */
    public Assessment wouldFollow(Observations other) {
        return consultation.wouldFollow(other);
    }

    /** What follows from what is known, without its reasons; what each change is held against. */
    public Outlook now() {
        return probe.now();
    }

    /**
     * One changed answer and what would follow.
     *
     * @param from the answer as recorded, or {@code not asked}
     * @param to the answer as it would be, or {@code not asked}
     */
    public record Change(String finding, String from, String to, Outlook then) {}

    /** Every change of one recorded answer, taking it back included, that changes urgency or the leading candidate. */
    public List<Change> ofRecorded() {
        List<Change> changes = new ArrayList<>();
        for (String id : probe.observations().recorded().keySet()) {
            changes.addAll(of(id, true));
        }
        return changes;
    }

    /** Every answer to one open question that would change urgency or the leading candidate. */
    public List<Change> ofOpen() {
        List<Change> changes = new ArrayList<>();
        Observations known = probe.observations();
        for (FindingDefinition finding : knowledge.catalogue().findings()) {
            if (known.recorded(finding.id()).isEmpty() && known.applies(finding)) {
                changes.addAll(of(finding.id(), false));
            }
        }
        return changes;
    }

    private List<Change> of(String id, boolean recorded) {
        Observations known = probe.observations();
        FindingDefinition finding = knowledge.catalogue().finding(id).orElseThrow();
        String from = known.shown(id);
        Set<String> told = new LinkedHashSet<>();
        List<Change> changes = new ArrayList<>();
        if (recorded) {
            Outlook then = probe.withheld(id);
            if (differs(probe.now(), then)) {
                changes.add(new Change(id, from, NOT_ASKED, then));
            }
        }
        for (Answer answer : answers.of(finding)) {
            Recorded changed = PossibleAnswers.recorded(finding, known.side(), answer);
            Outlook then = probe.given(id, kept(known, id, changed));
            if (differs(probe.now(), then) && told.add(effect(then))) {
                changes.add(new Change(id, from, answer.text(), then));
            }
        }
        return changes;
    }

    /** The side that does not hurt keeps its answer. */
    private static Recorded kept(Observations known, String id, Recorded changed) {
        Optional<Recorded> before = known.recorded(id);
        if (before.isEmpty() || known.side() == Side.BOTH || !(changed instanceof Recorded.Sides)) {
            return changed;
        }
        return new Recorded.Sides(
                changed.on(Side.LEFT).or(() -> before.get().on(Side.LEFT)),
                changed.on(Side.RIGHT).or(() -> before.get().on(Side.RIGHT)));
    }

    private static boolean differs(Outlook now, Outlook then) {
        return !now.urgency().equals(then.urgency()) || !now.leading().equals(then.leading());
    }

    /** Several numbers or choices with the same effect are told once. */
    private static String effect(Outlook then) {
        return then.urgency() + " " + then.leading() + " "
                + new TreeSet<>(then.raised().keySet());
    }

    /**
     * The smallest sets of open questions whose harmless answers would allow manage-here, up to three of the smallest size
     * found. Empty when a flag is raised, or when no answers to open questions get there.
     */
    public List<Map<String, Answer>> setsThatAllowManageHere() {
        if (!probe.now().raised().isEmpty()) {
            return List.of();
        }
        List<Map<String, Answer>> found = new ArrayList<>();
        Map<String, Answer> all = closing();
        if (all.isEmpty()) {
            return List.of();
        }
        List<String> forward = new ArrayList<>(all.keySet());
        List<String> backward = new ArrayList<>(forward);
        Collections.reverse(backward);
        List<String> byCost = new ArrayList<>(forward);
        byCost.sort(Comparator.comparingInt((String id) ->
                        -knowledge.catalogue().finding(id).orElseThrow().seconds())
                .thenComparing(id -> id));
        for (List<String> order : List.of(backward, byCost, forward)) {
            Map<String, Answer> least = leastOf(all, order);
            if (found.stream().noneMatch(one -> one.keySet().equals(least.keySet()))) {
                found.add(least);
            }
        }
        int smallest = found.stream().mapToInt(Map::size).min().orElse(0);
        return found.stream()
                .filter(one -> one.size() == smallest)
                .limit(MOST_SETS)
                .toList();
    }

    /** Harmless answers to whatever is asked, until nothing is open; empty when that cannot be reached. */
    private Map<String, Answer> closing() {
        Map<String, Answer> given = new LinkedHashMap<>();
        Observations known = consultation.observations();
        Assessment assessment = consultation.assess();
        while (!assessment.screeningComplete()) {
            Optional<String> ask = assessment.openFlags().stream()
                    .map(Flag::ask)
                    .flatMap(List::stream)
                    .filter(id -> !given.containsKey(id))
                    .findFirst();
            if (ask.isEmpty()) {
                return Map.of();
            }
            FindingDefinition finding = knowledge.catalogue().finding(ask.get()).orElseThrow();
            Optional<Answer> harmless = harmless(known, given.keySet(), finding);
            if (harmless.isEmpty()) {
                return Map.of();
            }
            given.put(finding.id(), harmless.get());
            known = known.with(finding.id(), everywhere(known, finding, harmless.get()));
            assessment = consultation.wouldFollow(known);
        }
        boolean there = assessment.urgency().equals(Optional.of(Urgency.MANAGE_HERE));
        return there ? given : Map.of();
    }

    /** Where two sides are compared, the harmless answer is the same on both. */
    private static Recorded everywhere(Observations known, FindingDefinition finding, Answer answer) {
        boolean compared = known.catalogue().comparedBetweenSides().contains(finding.id());
        return PossibleAnswers.recorded(finding, compared ? Side.BOTH : known.side(), answer);
    }

    /** The answer that raises nothing and leaves least open. */
    private Optional<Answer> harmless(Observations known, Set<String> given, FindingDefinition finding) {
        Set<String> changed = new LinkedHashSet<>(given);
        changed.add(finding.id());
        Answer best = null;
        int least = Integer.MAX_VALUE;
        for (Answer answer : answers.of(finding)) {
            Outlook then = probe.given(known.with(finding.id(), everywhere(known, finding, answer)), changed);
            if (then.raised().isEmpty() && then.open().size() < least) {
                best = answer;
                least = then.open().size();
            }
        }
        return Optional.ofNullable(best);
    }

    /** Drops, in this order, every answer the rest can do without. */
    private Map<String, Answer> leastOf(Map<String, Answer> all, List<String> order) {
        Map<String, Answer> kept = new LinkedHashMap<>(all);
        for (String id : order) {
            Map<String, Answer> fewer = new LinkedHashMap<>(kept);
            fewer.remove(id);
            Observations known = probe.observations();
            for (Map.Entry<String, Answer> entry : fewer.entrySet()) {
                FindingDefinition finding =
                        knowledge.catalogue().finding(entry.getKey()).orElseThrow();
                known = known.with(entry.getKey(), everywhere(known, finding, entry.getValue()));
            }
            if (probe.given(known, all.keySet()).urgency().equals(Optional.of(Urgency.MANAGE_HERE))) {
                kept = fewer;
            }
        }
        return kept;
    }

    @Override
    public void close() {
        probe.close();
        consultation.close();
    }
}
