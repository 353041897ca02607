package org.gerdy.engine.casefile;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.gerdy.engine.casefile.DocumentEditor.Prose;
import org.gerdy.engine.vocabulary.Urgency;

/** Writes case files that {@link CaseReader} reads back equal. Changes to a file keep its comments and all else in it. */
public final class CaseWriter {
    private CaseWriter() {}

    /** A case as a new YAML file, UTF-8. */
    public static byte[] write(CaseFile caseFile) {
        if (caseFile.expect().filter(expect -> !expect.detail().isEmpty()).isPresent()) {
            throw new IllegalArgumentException(
                    "A case held to single rows is updated in its own file, never written anew.");
        }
        for (Visit visit : caseFile.visits()) {
            boolean more = !visit.measures().isEmpty()
                    || visit.runs().isPresent()
                    || !visit.runLog().isEmpty()
                    || visit.plan().isPresent()
                    || visit.review().isPresent();
            if (more) {
                throw new IllegalArgumentException(
                        "A case with measures, runs or a plan is updated in its own file, never written anew.");
            }
        }
        YamlEditor document = YamlEditor.empty();
        document.put(List.of("gerdy"), 1);
        document.put(List.of("case"), new Prose(caseFile.id()));
        change(document, new CaseFile(caseFile.id(), "", "", Map.of(), List.of(), Optional.empty()), caseFile);
        return document.bytes();
    }

    /**
     * The bytes of a file with every difference between two cases put in, and nothing else touched.
     *
     * @param original YAML or JSON, as read
     * @param before the case those bytes hold
     * @param after the case to be held
     */
    public static byte[] update(byte[] original, CaseFile before, CaseFile after) {
        String text = new String(original, StandardCharsets.UTF_8);
        String plain = text.startsWith("\uFEFF") ? text.substring(1) : text;
        DocumentEditor document = plain.stripLeading().startsWith("{") ? JsonEditor.of(plain) : YamlEditor.of(plain);
        change(document, before, after);
        return document.bytes();
    }

    private static void change(DocumentEditor document, CaseFile before, CaseFile after) {
        prose(document, List.of("case"), before.id(), after.id());
        prose(document, List.of("title"), before.title(), after.title());
        prose(document, List.of("source"), before.source(), after.source());
        findings(document, List.of("patient"), before.patient(), after.patient(), Optional.empty(), Optional.empty());
        for (int i = before.visits().size() - 1; i >= after.visits().size(); i--) {
            document.remove(List.of("visits", i));
        }
        for (int i = 0; i < after.visits().size(); i++) {
            visit(
                    document,
                    i,
                    i < before.visits().size() ? Optional.of(before.visits().get(i)) : Optional.empty(),
                    after.visits().get(i));
        }
        if (!before.expect().equals(after.expect())) {
            after.expect()
                    .ifPresentOrElse(
                            expect -> document.put(List.of("expect"), expectation(expect)),
                            () -> document.remove(List.of("expect")));
        }
    }

    private static void visit(DocumentEditor document, int index, Optional<Visit> before, Visit after) {
        List<Object> at = List.of("visits", index);
        text(
                document,
                at(at, "date"),
                before.map(Visit::date).map(Object::toString).orElse(""),
                after.date().toString());
        text(
                document,
                at(at, "side"),
                before.map(Visit::side).map(Side::word).orElse(""),
                after.side().word());
        findings(
                document,
                at(at, "findings"),
                before.map(Visit::findings).orElse(Map.of()),
                after.findings(),
                before.map(Visit::side),
                Optional.of(after.side()));
        prose(document, at(at, "notes"), before.map(Visit::notes).orElse(""), after.notes());
        Optional<CaseFile.Decision> decided = before.flatMap(Visit::decision);
        if (!decided.equals(after.decision())) {
            after.decision()
                    .ifPresentOrElse(
                            decision -> {
                                Map<String, Object> block = new LinkedHashMap<>();
                                block.put("urgency", decision.urgency().word());
                                block.put("reason", new Prose(decision.reason()));
                                document.put(at(at, "decision"), block);
                            },
                            () -> document.remove(at(at, "decision")));
        }
    }

    /** A bare answer belongs to the painful side, so every answer is written again when that side changes. */
    private static void findings(
            DocumentEditor document,
            List<Object> at,
            Map<String, Recorded> before,
            Map<String, Recorded> after,
            Optional<Side> sideBefore,
            Optional<Side> sideAfter) {
        for (String id : before.keySet()) {
            if (!after.containsKey(id)) {
                document.remove(at(at, id));
            }
        }
        boolean moved = !sideBefore.equals(sideAfter);
        after.forEach((id, recorded) -> {
            if (moved || !Objects.equals(before.get(id), recorded)) {
                document.put(at(at, id), answer(recorded, sideAfter));
            }
        });
    }

    private static Object answer(Recorded recorded, Optional<Side> side) {
        if (recorded instanceof Recorded.Whole whole) {
            return whole.answer().text();
        }
        Recorded.Sides sides = (Recorded.Sides) recorded;
        if (side.equals(Optional.of(Side.LEFT))
                && sides.left().isPresent()
                && sides.right().isEmpty()) {
            return sides.left().get().text();
        }
        if (side.equals(Optional.of(Side.RIGHT))
                && sides.right().isPresent()
                && sides.left().isEmpty()) {
            return sides.right().get().text();
        }
        Map<String, Object> block = new LinkedHashMap<>();
        sides.left().ifPresent(given -> block.put("left", given.text()));
        sides.right().ifPresent(given -> block.put("right", given.text()));
        return block;
    }

    private static Map<String, Object> expectation(CaseFile.Expectation expect) {
        Map<String, Object> block = new LinkedHashMap<>();
        expect.urgency().ifPresent(urgency -> block.put("urgency", urgency.word()));
        expect.atLeast().ifPresent(urgency -> block.put("urgency", Map.of("at-least", urgency.word())));
        list(block, "raised", expect.raised());
        list(block, "not-raised", expect.notRaised());
        list(block, "rows-raised", expect.rowsRaised());
        list(block, "rows-not-raised", expect.rowsNotRaised());
        list(block, "cleared", expect.cleared());
        list(block, "open", expect.open());
        expect.leading().ifPresent(leading -> block.put("leading", leading));
        if (!expect.within().isEmpty()) {
            block.put("within", new java.util.TreeMap<>(expect.within()));
        }
        list(block, "never", expect.never().stream().map(Urgency::word).toList());
        return block;
    }

    private static void list(Map<String, Object> block, String key, List<String> ids) {
        if (!ids.isEmpty()) {
            block.put(key, ids);
        }
    }

    private static void text(DocumentEditor document, List<Object> at, String before, String after) {
        put(document, at, before, after, after);
    }

    private static void prose(DocumentEditor document, List<Object> at, String before, String after) {
        put(document, at, before, after, new Prose(after));
    }

    private static void put(DocumentEditor document, List<Object> at, String before, String after, Object written) {
        if (before.equals(after)) {
            return;
        }
        if (after.isEmpty()) {
            document.remove(at);
        } else {
            document.put(at, written);
        }
    }

    private static List<Object> at(List<Object> path, Object step) {
        List<Object> longer = new ArrayList<>(path);
        longer.add(step);
        return longer;
    }
}
