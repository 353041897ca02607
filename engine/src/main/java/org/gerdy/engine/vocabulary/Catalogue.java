package org.gerdy.engine.vocabulary;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.text.similarity.LevenshteinDistance;
import org.gerdy.engine.logic.Expression;

/** All findings that can be recorded and all that are computed from them. Immutable. */
public final class Catalogue {
    private final Map<String, FindingDefinition> findings;
    private final Map<String, ComputedFinding> computed;
    private final Set<String> comparedBetweenSides;
    /** Worked out on first use; asked for many times in each case. */
    private final Map<String, Set<String>> askedBehind = new ConcurrentHashMap<>();

    private final Map<String, Set<String>> readers = new HashMap<>();
    private final Map<String, Set<String>> restingOn = new ConcurrentHashMap<>();

    private Catalogue(Map<String, FindingDefinition> findings, Map<String, ComputedFinding> computed) {
        this.findings = Collections.unmodifiableMap(findings);
        this.computed = Collections.unmodifiableMap(computed);
        Set<String> compared = new LinkedHashSet<>();
        for (ComputedFinding finding : computed.values()) {
            finding.means().atoms(atom -> {
                if (atom instanceof Expression.CompareSides sides) {
                    compared.add(sides.finding());
                }
            });
        }
        this.comparedBetweenSides = Set.copyOf(compared);
        for (FindingDefinition finding : findings.values()) {
            finding.onlyIf().ifPresent(gate -> reads(finding.id(), gate));
        }
        for (ComputedFinding finding : computed.values()) {
            reads(finding.id(), finding.means());
        }
    }

    private void reads(String reader, Expression expression) {
        expression.atoms(atom -> readers.computeIfAbsent(atom.finding(), ignored -> new LinkedHashSet<>())
                .add(reader));
    }

    /** A catalogue of these findings. Throws {@link IllegalArgumentException} naming any id used twice. */
    public static Catalogue of(Collection<FindingDefinition> findings, Collection<ComputedFinding> computed) {
        Map<String, FindingDefinition> byId = new LinkedHashMap<>();
        for (FindingDefinition finding : findings) {
            if (byId.put(finding.id(), finding) != null) {
                throw new IllegalArgumentException("The finding " + finding.id() + " is defined twice.");
            }
        }
        Map<String, ComputedFinding> computedById = new LinkedHashMap<>();
        for (ComputedFinding finding : computed) {
            if (byId.containsKey(finding.id()) || computedById.put(finding.id(), finding) != null) {
                throw new IllegalArgumentException("The finding " + finding.id() + " is defined twice.");
            }
        }
        return new Catalogue(byId, computedById);
    }

    /** Every finding that can be asked, in catalogue order. */
    public Collection<FindingDefinition> findings() {
        return findings.values();
    }

    /** Every computed finding, in table order. */
    public Collection<ComputedFinding> computed() {
        return computed.values();
    }

    /** The finding of this id, if it can be asked. */
    public Optional<FindingDefinition> finding(String id) {
        return Optional.ofNullable(findings.get(id));
    }

    /** The computed finding of this id. */
    public Optional<ComputedFinding> computed(String id) {
        return Optional.ofNullable(computed.get(id));
    }

    /** Whether the id names a finding, asked or computed. */
    public boolean knows(String id) {
        return findings.containsKey(id) || computed.containsKey(id);
    }

    /** Findings whose value on one side means something only beside the other side's. */
    public Set<String> comparedBetweenSides() {
        return comparedBetweenSides;
    }

    /** The askable findings an expression rests on, computed ones followed down to what is asked. */
    public Set<String> askedBehind(Expression expression) {
        Set<String> asked = new LinkedHashSet<>();
        expression.atoms(atom -> asked.addAll(askedBehind(atom.finding())));
        return asked;
    }

    /** The askable findings behind this id: itself, or what it is computed from. */
    public Set<String> askedBehind(String id) {
        Set<String> known = askedBehind.get(id);
        if (known == null) {
            ComputedFinding finding = computed.get(id);
            known = finding == null ? Set.of(id) : Collections.unmodifiableSet(askedBehind(finding.means()));
            askedBehind.put(id, known);
        }
        return known;
    }

    /**
     * The findings that can read differently when this one is answered otherwise: itself, what it gates, what is computed
     * from either, however far.
     */
    public Set<String> restingOn(String id) {
        Set<String> known = restingOn.get(id);
        if (known == null) {
            Set<String> resting = new LinkedHashSet<>();
            Deque<String> open = new ArrayDeque<>(List.of(id));
            while (!open.isEmpty()) {
                String next = open.remove();
                if (resting.add(next)) {
                    open.addAll(readers.getOrDefault(next, Set.of()));
                }
            }
            known = Collections.unmodifiableSet(resting);
            restingOn.put(id, known);
        }
        return known;
    }

    /** The askable id most like this word, if any is near enough to be meant. */
    public Optional<String> nearest(String word) {
        return nearest(word, findings.keySet());
    }

    /** The candidate most like this word by edit distance, if any differs in no more than a third of its letters. */
    public static Optional<String> nearest(String word, Collection<String> candidates) {
        LevenshteinDistance distance = LevenshteinDistance.getDefaultInstance();
        String best = null;
        int least = Integer.MAX_VALUE;
        List<String> ordered = new ArrayList<>(candidates);
        Collections.sort(ordered);
        for (String candidate : ordered) {
            int steps = distance.apply(word, candidate);
            if (steps < least) {
                least = steps;
                best = candidate;
            }
        }
        boolean near = best != null && least <= Math.max(2, Math.max(word.length(), best.length()) / 3);
        return near ? Optional.ofNullable(best) : Optional.empty();
    }
}
