package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * The same cases under two knowledge bases.
 *
 * @param before the knowledge base compared with
 * @param after the one being audited
 * @param changes every rule and row that differs
 * @param cases the cases in which a conclusion changed: those whose urgency fell first, the deepest fall first of all
 * @param byCause the changed conclusions, grouped by the rule or row whose change alone brings them about
 * @param table how many cases went from each urgency to each, {@code before to after}
 */
public record Against(
        KnowledgeBase.Identity before,
        KnowledgeBase.Identity after,
        List<KnowledgeChange> changes,
        List<Changed> cases,
        Map<String, List<Effect>> byCause,
        Map<String, Integer> table) {

    /** The group of conclusions that no single change brings about. */
    public static final String TOGETHER = "several changes together";

    private static final List<Urgency> LADDER = List.of(Urgency.values());

    /** A knowledge base with its files and engine. */
    public record Side(Gerdy gerdy, KnowledgeFiles files) {}

    /** One conclusion before and after, with what caused it. */
    public record Moved(String conclusion, String before, String after, List<String> causes) {}

    /** One case in which something changed. */
    public record Changed(
            AuditCase auditCase, Optional<Urgency> before, Optional<Urgency> after, List<Moved> conclusions) {
        /** How many levels the urgency fell; 0 or less when it did not. Losing a raised level to an open screen is a fall. */
        public int fall() {
            return level(before) - level(after);
        }

        private static int level(Optional<Urgency> urgency) {
            return urgency.map(one -> 2 * LADDER.indexOf(one)).orElse(1);
        }
    }

    /** One conclusion of one case, under a cause. */
    public record Effect(String caseId, Moved moved) {}

    /** Runs the cases under both. */
    public static Against run(Side before, Side after, List<AuditCase> cases, Watcher watcher) {
        List<KnowledgeChange> changes = KnowledgeDifference.between(
                before.files(),
                before.gerdy().knowledge().rules(),
                after.files(),
                after.gerdy().knowledge().rules());
        Causes causes = new Causes(before.gerdy(), after.gerdy(), changes);
        List<Changed> pairs;
        try (Watcher.Steps steps = watcher.begin("Cases under both", cases.size())) {
            pairs = IntStream.range(0, cases.size())
                    .parallel()
                    .mapToObj(i -> pair(before.gerdy(), after.gerdy(), causes, cases.get(i)))
                    .peek(pair -> steps.done(1))
                    .toList();
        }
        Map<String, Integer> table = new TreeMap<>();
        List<Changed> changed = new ArrayList<>();
        Map<String, List<Effect>> byCause = new LinkedHashMap<>();
        for (Changed pair : pairs) {
            table.merge(Expected.word(pair.before()) + " to " + Expected.word(pair.after()), 1, Integer::sum);
            if (!pair.conclusions().isEmpty()) {
                changed.add(pair);
            }
        }
        changed.sort((a, b) -> a.fall() != b.fall()
                ? Integer.compare(b.fall(), a.fall())
                : a.auditCase().id().compareTo(b.auditCase().id()));
        for (Changed one : changed) {
            for (Moved moved : one.conclusions()) {
                List<String> under = moved.causes().isEmpty() ? List.of(TOGETHER) : moved.causes();
                under.forEach(cause -> byCause.computeIfAbsent(cause, ignored -> new ArrayList<>())
                        .add(new Effect(one.auditCase().id(), moved)));
            }
        }
        return new Against(
                before.gerdy().knowledge().identity(),
                after.gerdy().knowledge().identity(),
                changes,
                List.copyOf(changed),
                byCause,
                table);
    }

    private static Changed pair(Gerdy before, Gerdy after, Causes causes, AuditCase one) {
        VisitResult was = before.visit(one.caseFile(), one.caseFile().latest());
        VisitResult is = after.visit(one.caseFile(), one.caseFile().latest());
        Map<String, String> wasSaid = Conclusions.of(was);
        Map<String, String> isSaid = Conclusions.of(is);
        List<String> differing = Conclusions.differing(wasSaid, isSaid);
        List<Moved> moved = new ArrayList<>();
        if (!differing.isEmpty()) {
            Map<String, List<String>> by = causes.of(one, wasSaid, differing);
            for (String name : differing) {
                moved.add(new Moved(
                        name,
                        wasSaid.getOrDefault(name, "none"),
                        isSaid.getOrDefault(name, "none"),
                        by.getOrDefault(name, List.of())));
            }
        }
        return new Changed(one, was.assessment().urgency(), is.assessment().urgency(), List.copyOf(moved));
    }

    /** The cases whose urgency fell. */
    public List<Changed> fell() {
        return cases.stream().filter(one -> one.fall() > 0).toList();
    }

    /** Whether any conclusion of any case changed. */
    public boolean differs() {
        return !cases.isEmpty();
    }
}
