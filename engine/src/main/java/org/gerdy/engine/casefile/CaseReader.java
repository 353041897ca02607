package org.gerdy.engine.casefile;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.measure.FactorVerdict;
import org.gerdy.engine.measure.Measured;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.Urgency;

/** Reads case files. Finds every fault in one pass; guesses and drops nothing. Safe for use by many threads. */
public final class CaseReader {
    /** The largest file read, in bytes. A case of 500 full visits stays below it. */
    private static final int LARGEST = 4 * 1024 * 1024;

    private final Terms terms;
    private final Optional<RunFileReader> runFiles;
    private final CaseSchema schema = new CaseSchema();

    /** A reader that knows these words and opens no run files. */
    public CaseReader(Terms terms) {
        this(terms, Optional.empty());
    }

    /** A reader that knows these words and opens run files beside a case with this. */
    public CaseReader(Terms terms, RunFileReader runFiles) {
        this(terms, Optional.of(runFiles));
    }

    private CaseReader(Terms terms, Optional<RunFileReader> runFiles) {
        this.terms = terms;
        this.runFiles = runFiles;
    }

    /** The JSON Schema (2020-12) of case files, as published. */
    public static String schema() {
        return CaseSchema.text();
    }

    /** Reads a file. Throws {@link MendableException} with every fault when anything is wrong. */
    public CaseFile read(Path path) throws MendableException {
        return sound(reading(path));
    }

    private Reading reading(Path path) throws MendableException {
        String name = path.toString();
        try {
            if (Files.isDirectory(path)) {
                throw new MendableException(name, "This is a directory; name a case file.");
            }
            if (Files.size(path) > LARGEST) {
                throw tooLarge(name);
            }
            return reading(name, Files.readAllBytes(path), CaseFolder.of(path, runFiles));
        } catch (NoSuchFileException e) {
            throw new MendableException(name, "There is no such file; check the path.");
        } catch (IOException e) {
            throw new MendableException(name, "The file could not be read: " + e.getMessage() + ".");
        }
    }

    /** Reads a stream to its end, named {@code name} in messages. */
    public CaseFile read(String name, InputStream in) throws MendableException {
        try {
            byte[] bytes = in.readNBytes(LARGEST + 1);
            if (bytes.length > LARGEST) {
                throw tooLarge(name);
            }
            return read(name, bytes);
        } catch (IOException e) {
            throw new MendableException(name, "The input could not be read: " + e.getMessage() + ".");
        }
    }

    /** Reads the bytes of one case, named {@code name} in messages. */
    public CaseFile read(String name, byte[] bytes) throws MendableException {
        return sound(reading(name, bytes, CaseFolder.none()));
    }

    private static CaseFile sound(Reading reading) throws MendableException {
        if (!reading.problems().isEmpty()) {
            throw new MendableException(reading.problems());
        }
        return reading.caseFile().orElseThrow();
    }

    /** Every fault of a file, including answers that clash; empty when it is sound. */
    public List<Problem> check(Path path) {
        try {
            return withClashes(path.toString(), reading(path));
        } catch (MendableException e) {
            return e.problems();
        }
    }

    /** Every fault of a stream, including answers that clash. */
    public List<Problem> check(String name, InputStream in) {
        try {
            byte[] bytes = in.readNBytes(LARGEST + 1);
            if (bytes.length > LARGEST) {
                return tooLarge(name).problems();
            }
            return withClashes(name, reading(name, bytes, CaseFolder.none()));
        } catch (MendableException e) {
            return e.problems();
        } catch (IOException e) {
            return List.of(new Problem(name, 0, 0, "The input could not be read: " + e.getMessage() + "."));
        }
    }

    private List<Problem> withClashes(String name, Reading reading) {
        return reading.caseFile().isEmpty() || !reading.problems().isEmpty()
                ? reading.problems()
                : new ClashFinder(terms).problems(name, reading.caseFile().get(), reading.places());
    }

    private static MendableException tooLarge(String name) {
        return new MendableException(
                name, "The file is larger than " + LARGEST / (1024 * 1024) + " MB; a case file holds one case.");
    }

    private record Reading(Optional<CaseFile> caseFile, List<Problem> problems, Places places) {}

    private Reading reading(String name, byte[] bytes, CaseFolder folder) throws MendableException {
        List<Problem> problems = new ArrayList<>();
        Tree tree = new TreeReader(name, problems).read(bytes);
        problems.addAll(schema.faults(name, tree));
        Places places = new Places();
        if (!problems.isEmpty()) {
            List<Problem> words = new ArrayList<>();
            if (tree instanceof Tree.Mapping root) {
                new Answering(name, folder, words, places).look(root);
            }
            // Where the words say what is wrong with an answer, its shape need not be told as well.
            problems.removeIf(shape ->
                    words.stream().anyMatch(word -> word.line() == shape.line() && word.column() == shape.column()));
            problems.addAll(words);
            return new Reading(
                    Optional.empty(), problems.stream().distinct().sorted().toList(), places);
        }
        CaseFile caseFile = new Answering(name, folder, problems, places).caseFile((Tree.Mapping) tree);
        return new Reading(
                problems.isEmpty() ? Optional.of(caseFile) : Optional.empty(),
                problems.stream().sorted().toList(),
                places);
    }

    /** Turns a tree of the right shape into a case, checking every word against the terms. */
    private final class Answering {
        private final String file;
        private final CaseFolder folder;
        private final List<Problem> problems;
        private final Places places;
        private final AnswerReader answers;

        Answering(String file, CaseFolder folder, List<Problem> problems, Places places) {
            this.file = file;
            this.folder = folder;
            this.problems = problems;
            this.places = places;
            this.answers = new AnswerReader(file, terms.catalogue(), problems);
        }

        /** Checks the findings of a document whose shape is wrong elsewhere, so that one pass tells all. */
        void look(Tree.Mapping root) {
            map(root, "patient").ifPresent(patient -> answers.ofPatient(patient, places.of(-1)));
            Tree.Member member = root.members().get("visits");
            if (member != null && member.value() instanceof Tree.Sequence list) {
                int index = 0;
                for (Tree item : list.items()) {
                    if (item instanceof Tree.Mapping visit) {
                        // Where the side itself is wrong, one side is taken so that no further fault is invented.
                        Side side =
                                text(visit, "side").flatMap(CaseReader::side).orElse(Side.LEFT);
                        Map<String, Tree.Place> where = places.of(index++);
                        map(visit, "findings").ifPresent(findings -> answers.ofVisit(findings, side, where));
                        map(visit, "measures").ifPresent(this::measures);
                    }
                }
            }
        }

        CaseFile caseFile(Tree.Mapping root) {
            Map<String, Recorded> patient = map(root, "patient")
                    .map(map -> answers.ofPatient(map, places.of(-1)))
                    .orElse(Map.of());
            List<Visit> visits = new ArrayList<>();
            Tree.Sequence list = (Tree.Sequence) required(root, "visits");
            LocalDate previous = LocalDate.MIN;
            for (Tree item : list.items()) {
                Visit visit = visit((Tree.Mapping) item, patient, visits.size());
                if (!visit.date().isAfter(previous)) {
                    problem(
                            required((Tree.Mapping) item, "date"),
                            "The visit of " + visit.date() + " stands after the one of " + previous
                                    + "; put visits in order, one a day.");
                }
                previous = visit.date();
                visits.add(visit);
            }
            return new CaseFile(
                    text(root, "case").orElse(""),
                    text(root, "title").orElse(""),
                    text(root, "source").orElse(""),
                    patient,
                    List.copyOf(visits),
                    map(root, "expect").map(this::expectation));
        }

        private Visit visit(Tree.Mapping map, Map<String, Recorded> patient, int index) {
            Side side = text(map, "side").flatMap(CaseReader::side).orElse(Side.BOTH);
            LocalDate date = date(required(map, "date"));
            Map<String, Recorded> findings = map(map, "findings")
                    .map(found -> answers.ofVisit(found, side, places.of(index)))
                    .orElse(Map.of());
            for (Map.Entry<String, Recorded> entry : findings.entrySet()) {
                Tree.Place place = places.of(index).getOrDefault(entry.getKey(), map.place());
                if (patient.containsKey(entry.getKey())) {
                    problems.add(new Problem(
                            file,
                            place.line(),
                            place.column(),
                            "'" + entry.getKey() + "' stands under patient and again in this visit; keep one."));
                }
                if (entry.getValue() instanceof Recorded.Whole whole
                        && whole.answer() instanceof Answer.Day day
                        && day.date().isAfter(date)) {
                    problems.add(new Problem(
                            file,
                            place.line(),
                            place.column(),
                            "'" + entry.getKey() + "' is " + day.date() + ", after the visit of " + date
                                    + "; correct one of the two."));
                }
            }
            Optional<CaseFile.Decision> decision = map(map, "decision")
                    .map(found -> new CaseFile.Decision(
                            text(found, "urgency").flatMap(Urgency::of).orElseThrow(),
                            text(found, "reason").orElse("")));
            PlanReader planning = new PlanReader(file, problems);
            return new Visit(
                    date,
                    side,
                    findings,
                    text(map, "notes").orElse(""),
                    decision,
                    map(map, "measures").map(this::measures).orElse(Map.of()),
                    map(map, "runs").map(new RunNotesReader(file, folder, problems)::read),
                    planning.runs(map, date),
                    planning.plan(map),
                    planning.said(map, "review"));
        }

        private Map<String, Measured> measures(Tree.Mapping block) {
            return new MeasureReader(file, terms.measures().get(), problems).read(block);
        }

        private LocalDate date(Tree tree) {
            String text = ((Tree.Scalar) tree).text();
            try {
                return LocalDate.parse(text);
            } catch (DateTimeException e) {
                problem(tree, "'" + text + "' is not a day of the calendar; correct it.");
                return LocalDate.EPOCH;
            }
        }

        private CaseFile.Expectation expectation(Tree.Mapping map) {
            Optional<Urgency> exact = text(map, "urgency").flatMap(Urgency::of);
            Optional<Urgency> atLeast = map(map, "urgency")
                    .flatMap(inner -> text(inner, "at-least"))
                    .flatMap(Urgency::of);
            Map<String, Integer> within = new LinkedHashMap<>();
            map(map, "within").ifPresent(ranks -> ranks.members().forEach((condition, member) -> {
                known(condition, terms.conditions(), "condition", member.key());
                rank(member.value()).ifPresent(rank -> within.put(condition, rank));
            }));
            Optional<String> leading = text(map, "leading");
            leading.ifPresent(id -> known(
                    id,
                    terms.conditions(),
                    "condition",
                    required(map, "leading").place()));
            return new CaseFile.Expectation(
                    exact,
                    atLeast,
                    ids(map, "raised", terms.flags(), "red flag"),
                    ids(map, "not-raised", terms.flags(), "red flag"),
                    ids(map, "rows-raised", terms.rows(), "red flag row"),
                    ids(map, "rows-not-raised", terms.rows(), "red flag row"),
                    ids(map, "cleared", terms.flags(), "red flag"),
                    ids(map, "open", terms.flags(), "red flag"),
                    leading,
                    Map.copyOf(within),
                    ids(map, "never", Set.copyOf(Urgency.words()), "urgency").stream()
                            .flatMap(word -> Urgency.of(word).stream())
                            .toList(),
                    detail(map));
        }

        private CaseFile.Detail detail(Tree.Mapping map) {
            Map<String, Urgency> rowUrgency = new LinkedHashMap<>();
            map(map, "row-urgency").ifPresent(rows -> rows.members().forEach((row, member) -> {
                known(row, terms.rows(), "red flag row", member.key());
                rowUrgency.put(
                        row, Urgency.of(((Tree.Scalar) member.value()).text()).orElseThrow());
            }));
            return new CaseFile.Detail(
                    ids(map, "rows-open", terms.rows(), "red flag row"),
                    ids(map, "rows-cleared", terms.rows(), "red flag row"),
                    rowUrgency,
                    text(map, "population"),
                    texts(map, "referrals"),
                    texts(map, "not-referrals"),
                    new CaseFile.Weights(
                            speaks(map, "speaks-for"),
                            speaks(map, "speaks-against"),
                            speaks(map, "not-speaks-for"),
                            speaks(map, "not-speaks-against"),
                            ids(map, "not-unlikely", terms.conditions(), "condition")),
                    said(map, "scores", terms.scores(), "score"),
                    said(map, "decision-rules", terms.decisionRules(), "decision rule"),
                    care(map));
        }

        private Map<String, String> said(Tree.Mapping map, String key, Set<String> known, String what) {
            Map<String, String> said = new LinkedHashMap<>();
            map(map, key).ifPresent(block -> block.members().forEach((id, member) -> {
                known(id, known, what, member.key());
                said.put(id, ((Tree.Scalar) member.value()).text());
            }));
            return said;
        }

        private CaseFile.Care care(Tree.Mapping map) {
            Map<String, FactorVerdict> verdicts = new LinkedHashMap<>();
            map(map, "factors").ifPresent(factors -> factors.members().forEach((factor, member) -> {
                known(factor, terms.factors().get(), "contributing factor", member.key());
                verdicts.put(factor, FactorVerdict.of(((Tree.Scalar) member.value()).text()));
            }));
            return new CaseFile.Care(verdicts, planItems(map, "plan"), planItems(map, "not-plan"));
        }

        private List<String> planItems(Tree.Mapping map, String key) {
            return map.members().containsKey(key)
                    ? ids(map, key, terms.planItems().get(), "plan item")
                    : List.of();
        }

        private Map<String, List<String>> speaks(Tree.Mapping map, String key) {
            Map<String, List<String>> byCondition = new LinkedHashMap<>();
            map(map, key).ifPresent(conditions -> conditions.members().forEach((condition, member) -> {
                known(condition, terms.conditions(), "condition", member.key());
                if (member.value() instanceof Tree.Sequence findings) {
                    findings.items().forEach(this::knownFinding);
                }
                byCondition.put(condition, texts(conditions, condition));
            }));
            return byCondition;
        }

        private void knownFinding(Tree item) {
            String id = ((Tree.Scalar) item).text();
            if (!terms.catalogue().knows(id)) {
                problem(item, AnswerReader.noFinding(terms.catalogue(), id));
            }
        }

        private List<String> texts(Tree.Mapping map, String key) {
            Tree.Member member = map.members().get(key);
            return member != null && member.value() instanceof Tree.Sequence list
                    ? list.items().stream()
                            .map(item -> ((Tree.Scalar) item).text())
                            .toList()
                    : List.of();
        }

        private Optional<Integer> rank(Tree tree) {
            try {
                String text = ((Tree.Scalar) tree).text();
                return Optional.of(new BigDecimal(text.replace("_", "")).intValueExact());
            } catch (ArithmeticException | NumberFormatException e) {
                problem(tree, "A rank is a whole number such as 3; correct it.");
                return Optional.empty();
            }
        }

        private List<String> ids(Tree.Mapping map, String key, Set<String> known, String what) {
            List<String> ids = new ArrayList<>();
            Tree.Member member = map.members().get(key);
            if (member != null && member.value() instanceof Tree.Sequence list) {
                for (Tree item : list.items()) {
                    String id = ((Tree.Scalar) item).text();
                    known(id, known, what, item.place());
                    ids.add(id);
                }
            }
            return List.copyOf(ids);
        }

        private void known(String id, Set<String> known, String what, Tree.Place place) {
            if (!known.contains(id)) {
                String hint = Catalogue.nearest(id, known)
                        .map(nearest -> "did you mean '" + nearest + "'?")
                        .orElse("'gerdy rules list' shows them.");
                problems.add(new Problem(
                        file, place.line(), place.column(), "There is no " + what + " '" + id + "'; " + hint));
            }
        }

        private void problem(Tree tree, String message) {
            problems.add(new Problem(file, tree.place().line(), tree.place().column(), message));
        }
    }

    private static Optional<Side> side(String word) {
        for (Side side : Side.values()) {
            if (side.word().equals(word)) {
                return Optional.of(side);
            }
        }
        return Optional.empty();
    }

    /** The value of a key the schema has already insisted on. */
    private static Tree required(Tree.Mapping map, String key) {
        Tree.Member member = map.members().get(key);
        if (member == null) {
            throw new IllegalStateException("The schema let a case without '" + key + "' through.");
        }
        return member.value();
    }

    private static Optional<Tree.Mapping> map(Tree.Mapping map, String key) {
        Tree.Member member = map.members().get(key);
        return member != null && member.value() instanceof Tree.Mapping inner ? Optional.of(inner) : Optional.empty();
    }

    private static Optional<String> text(Tree.Mapping map, String key) {
        Tree.Member member = map.members().get(key);
        return member != null && member.value() instanceof Tree.Scalar scalar
                ? Optional.of(scalar.text())
                : Optional.empty();
    }
}
